package page_test

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle/page"
)

// A browser reads a figure as HTML and this package as XML. Where they might differ, the
// browser must find no element that was not allowed. The test needs Chromium.
func TestFigureInBrowser(t *testing.T) {
	browser, err := exec.LookPath("chromium")
	if err != nil || testing.Short() {
		t.Skip("needs Chromium, and is left out of the short tests")
	}
	var doc page.Page
	for _, inside := range []string{
		`<title>a &lt;img src=x onerror=alert(1)&gt;</title>`,
		`<desc>&lt;/svg&gt;&lt;script&gt;alert(1)&lt;/script&gt;</desc>`,
		`<!--><img src=x onerror=alert(1)>-->`,
		`<text x="1" class="a&quot; onclick=&quot;alert(1)">b</text>`,
		`<text x='"onload="alert(1)'>c</text>`,
		`<g><title/><text>d</text></g>`,
		`<text>&#60;img src=x&#62;</text>`,
		`<use href="#part-1"/>`,
	} {
		doc.Parts = append(doc.Parts, page.Part{Figure: `<svg xmlns="http://www.w3.org/2000/svg">` + inside + `</svg>`, FigureText: "tried in a browser"})
	}
	var b bytes.Buffer
	if err := page.Write(&b, doc); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	c := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--user-data-dir="+t.TempDir(), "--dump-dom", "file://"+path)
	c.WaitDelay = time.Second
	dom, err := c.Output()
	if err != nil || !bytes.Contains(dom, []byte("<svg")) {
		t.Skipf("the browser does not run here: %v", err)
	}
	if n := bytes.Count(dom, []byte("<svg")); n != len(doc.Parts) {
		t.Errorf("%d figures, want %d", n, len(doc.Parts))
	}
	for _, tag := range regexp.MustCompile(`<[a-zA-Z][^<>]*>`).FindAllString(string(dom), -1) {
		name := strings.ToLower(strings.Trim(strings.Fields(tag)[0], "<>/"))
		if name == "img" || name == "script" || regexp.MustCompile(`\son[a-z]+=`).MatchString(regexp.MustCompile(`"[^"]*"`).ReplaceAllString(tag, `""`)) {
			t.Errorf("the browser finds %s", tag)
		}
	}
}
