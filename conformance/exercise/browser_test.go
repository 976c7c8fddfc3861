package exercise_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"lubberline.example/angle/page"
	"lubberline.example/conformance/exercise"
)

// Eight questions print on two sheets and the key on one, on A4 and Letter. Measured in Chromium
// on the seeds 1 to 16 and all levels. The test needs Chromium, and FULL=1.
func TestSheetsPrinted(t *testing.T) {
	browser, err := exec.LookPath("chromium")
	if err != nil || os.Getenv("FULL") != "1" {
		t.Skip("needs Chromium, and FULL=1")
	}
	dir := t.TempDir()
	for seed := uint64(1); seed <= 3; seed++ {
		for _, level := range levels {
			p := made(t, exercise.Options{Seed: seed, Level: level})
			for _, size := range []page.Size{page.A4, page.Letter} {
				for want, doc := range map[int]page.Page{2: p.Questions(), 1: p.Key()} {
					doc.Size = size
					if got := sheets(t, browser, dir, html(t, doc)); got > 0 && got != want {
						t.Errorf("seed %d, %s, %s: %q prints on %d sheets, want %d", seed, level, size, doc.Title, got, want)
					}
				}
			}
		}
	}
}

// sheets prints a page and counts its sheets. It is 0 if the browser does not run here.
func sheets(t *testing.T, browser, dir, text string) int {
	t.Helper()
	in, out := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	c := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--no-pdf-header-footer", "--user-data-dir="+filepath.Join(dir, "browser"), "--print-to-pdf="+out, "file://"+in)
	c.WaitDelay = time.Second
	if err := c.Run(); err != nil {
		t.Logf("the browser does not run here: %v", err)
		return 0
	}
	pdf, err := os.ReadFile(out)
	if err != nil {
		return 0
	}
	return len(regexp.MustCompile(`/Type\s*/Page[^s]`).FindAll(pdf, -1))
}
