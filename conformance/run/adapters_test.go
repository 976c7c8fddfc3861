package main

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"testing"

	"lubberline.example/conformance"
)

// The adapters in other languages pass where there is an interpreter. Each has at least ten
// operations, and cases of every topic.
func TestAdapters(t *testing.T) {
	topics, err := conformance.Load()
	if err != nil {
		t.Fatal(err)
	}
	for program, script := range map[string]string{"python3": "../adapters/python/adapter.py", "node": "../adapters/javascript/adapter.mjs"} {
		t.Run(program, func(t *testing.T) {
			path, err := exec.LookPath(program)
			if err != nil {
				t.Skip("no " + program + " here")
			}
			var out, errs bytes.Buffer
			if status := run([]string{"-timeout", "20s", "-report", "json", "--", path, script}, &out, &errs); status != 0 {
				t.Fatalf("status %d: %s%s", status, &out, &errs)
			}
			var report struct {
				tally
				Results []result
			}
			if err := json.Unmarshal(out.Bytes(), &report); err != nil {
				t.Fatal(err)
			}
			offered := map[string]bool{}
			for _, r := range report.Results {
				if r.Status != conformance.NotOffered {
					offered[r.Operation] = true
				}
			}
			if len(offered) < 10 {
				t.Errorf("only %d operations", len(offered))
			}
			if len(report.Topics) != len(topics) {
				t.Errorf("topics %v, want all %d", report.Topics, len(topics))
			}
		})
	}
}
