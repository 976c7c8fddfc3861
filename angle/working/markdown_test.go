package working_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"lubberline.example/angle/working"
)

// hostile are texts that try to leave their place.
var hostile = []string{
	`<script>alert(1)</script>`, `</title></style><img src=x onerror=alert(1)>`, `"' onmouseover="x`, `a & b &amp; &#60;`,
	"one\ntwo\r\n\r\n# three\t|four|", `*bold* _it_ [a](javascript:x) ![i](x) <b> | \| \\ ` + "`code` ~~no~~ $x$", "\x00\x1b\xff\ufffe", "]]>",
	strings.Repeat("Sankt-Orlesk-im-Nebel", 40), strings.Repeat("very long ", 300), "-->", "{{.}}", "## head ##",
}

// marked is a sheet with a text in all its places.
func marked(text string) working.Sheet {
	return working.Sheet{Title: text, Steps: working.Steps{{What: text, Value: text, How: text}}, Warnings: []working.Warning{{Message: text}}, Caution: text}
}

func TestMarkdownOfWhatIsLeftOut(t *testing.T) {
	for want, sheet := range map[string]working.Sheet{
		"":                                   {},
		"## A title\n":                       {Title: "A title"},
		"- **Warning:** a\n- **Warning:**\n": {Warnings: []working.Warning{{Message: "a"}, {}}},
		"*C.*\n":                             {Title: " \n", Caution: "C.\n"},
		"| What | Value | How |\n| :--- | ----: | :-- |\n|      |       |  |\n": {Steps: working.Steps{{}}},
	} {
		if got := sheet.Markdown(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestMarkdownLevels(t *testing.T) {
	for level, marks := range map[int]string{-1: "#", 1: "#", 3: "###", 6: "######", 9: "######"} {
		if got, want := string((working.Sheet{Title: "T"}).AppendMarkdown([]byte("x\n\n"), level)), "x\n\n"+marks+" T\n"; got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// With hostile texts a sheet has as many lines and cells as with harmless ones.
// Every mark of Markdown is escaped.
func TestNoTextLeavesItsPlaceInMarkdown(t *testing.T) {
	cells := func(line string) int {
		return strings.Count(bare(line), "|")
	}
	plain := strings.Split(marked("plain").Markdown(), "\n")
	for _, text := range append(hostile, "a|b", `a\|b`, `ends in \`) {
		got := marked(text).Markdown()
		lines := strings.Split(got, "\n")
		if !utf8.ValidString(got) || len(lines) != len(plain) {
			t.Errorf("%.60q: %d lines, want %d:\n%.2000s", text, len(lines), len(plain), got)
			continue
		}
		for i, line := range lines {
			if cells(line) != cells(plain[i]) {
				t.Errorf("%.60q: %d cells, want %d: %.200s", text, cells(line), cells(plain[i]), line)
			}
			if strings.ContainsAny(bare(line), "<>&`[]_~$\\") {
				t.Errorf("%.60q: a bare mark in %.200s", text, line)
			}
			if strings.Count(bare(line), "*") != strings.Count(plain[i], "*") {
				t.Errorf("%.60q: emphasis in %.200s", text, line)
			}
		}
	}
}

// bare is a line without what is escaped in it.
func bare(line string) string {
	var b strings.Builder
	for i := 0; i < len(line); i++ {
		if line[i] == '\\' && i+1 < len(line) {
			i++
			continue
		}
		b.WriteByte(line[i])
	}
	return b.String()
}
