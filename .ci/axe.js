// Loads pages in Chromium, narrow and wide, and fails if axe-core finds a violation or a
// page must be scrolled sideways: node axe.js CHROMIUM PAGE…
const fs = require('fs')
const path = require('path')
const puppeteer = require('puppeteer-core')

const [chromium, ...pages] = process.argv.slice(2)
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8')

async function main() {
	const browser = await puppeteer.launch({ executablePath: chromium, args: ['--no-sandbox'] })
	let faults = 0
	for (const name of pages) {
		for (const width of [320, 1000]) {
			const page = await browser.newPage()
			await page.setBypassCSP(true) // the pages let no script in, this one neither
			await page.setViewport({ width, height: 900 })
			await page.goto('file://' + path.resolve(name))
			await page.evaluate(axe)
			const found = await page.evaluate(() => axe.run())
			const wide = await page.evaluate(() => document.documentElement.scrollWidth)
			const ids = found.violations.map(v => v.id)
			console.log(`${name} at ${width} px: ${ids.length} violations ${ids.join(' ')}; ${wide} px wide`)
			faults += ids.length + (wide > width ? 1 : 0)
		}
	}
	await browser.close()
	process.exit(faults > 0 ? 1 : 0)
}

main().catch(fault => { console.error(fault); process.exit(2) })
