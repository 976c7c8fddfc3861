package gpx_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/course/gpx"
)

// endless repeats a text without end.
type endless struct {
	text string
	read int
}

func (r *endless) Read(p []byte) (int, error) {
	for n := range p {
		p[n] = r.text[(r.read+n)%len(r.text)]
	}
	r.read += len(p)
	return len(p), nil
}

// refusedBriefly checks that a refusal is typed, and says why in few words.
func refusedBriefly(t *testing.T, name string, err error, want string) {
	t.Helper()
	if e, ok := errors.AsType[*gpx.Error](err); !ok || e.Line < 1 || !strings.Contains(err.Error(), want) || len(err.Error()) > 1000 {
		t.Errorf("%s: %.400v; want %s", name, err, want)
	}
}

// Reading a file without end stops at a limit, at most one buffer beyond it.
func TestEndlessFiles(t *testing.T) {
	for _, c := range []struct {
		name, first, text string
		most              int
		want              string
	}{
		{"no XML", "", "x", gpx.MaxToken, "no element gpx"},
		{"NULs", "", "\x00", gpx.MaxToken, "illegal character"},
		{"a comment", "<!--", "x", gpx.MaxToken, "256 KiB"},
		{"a declaration", "<!DOCTYPE gpx [", "<!ENTITY a 'aa'>", gpx.MaxToken, "256 KiB"},
		{"a tag", "<", "g", gpx.MaxToken, "256 KiB"},
		{"attributes", "<gpx ", "a='' ", gpx.MaxToken, "256 KiB"},
		{"an attribute", "<gpx a='", "x", gpx.MaxToken, "256 KiB"},
		{"a name", head + `<wpt lat="1" lon="1"><name>`, "x", gpx.MaxToken, "256 KiB"},
		{"CDATA", head + `<wpt lat="1" lon="1"><name><![CDATA[`, "x", gpx.MaxToken, "256 KiB"},
		{"depth", head + "<extensions>", "<a>", 3*gpx.MaxDepth + 1000, "nested elements"},
		{"depth in a name", head + `<wpt lat="1" lon="1"><name>`, "<a>", 3*gpx.MaxDepth + 1000, "nested elements"},
	} {
		r := &endless{text: c.text}
		_, err := gpx.Read(io.MultiReader(strings.NewReader(c.first), r))
		refusedBriefly(t, c.name, err, c.want)
		if r.read > c.most+1<<16 {
			t.Errorf("%s: %d bytes read", c.name, r.read)
		}
	}
}

// The limit is 64 MiB. By default a lower limit is tested, with FULL=1 the limit itself.
func TestEndlessShortTokens(t *testing.T) {
	if gpx.MaxBytes != 64<<20 {
		t.Error("the documented limit is 64 MiB")
	}
	limits := []int{4 << 20}
	if os.Getenv("FULL") == "1" {
		limits = append(limits, gpx.MaxBytes)
	}
	for _, most := range limits {
		r := &endless{text: " <x>" + strings.Repeat("x", 200_000) + "</x>"}
		_, err := gpx.ReadBounded(io.MultiReader(strings.NewReader(head), r), gpx.MaxPoints, most)
		refusedBriefly(t, "elements", err, fmt.Sprintf("%d MiB", most>>20))
		if r.read > most+1<<16 {
			t.Errorf("%d bytes read", r.read)
		}
	}
}

func TestHostileFiles(t *testing.T) {
	point := func(lat string) string { return head + `<wpt lat="` + lat + `" lon="1"/></gpx>` }
	laughs := `<!DOCTYPE gpx [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]>`
	long := strings.Repeat("x", gpx.MaxToken/2)
	for name, text := range map[string]string{
		"empty": "", "one NUL": "\x00", "a mark only": "\ufeff", "UTF-16": "\xff\xfe<\x00g\x00", "not UTF-8": head + "<wpt lat='1' lon='1'><name>\xff</name></wpt></gpx>",
		"a NUL within": head + "<metadata><name>a\x00</name></metadata></gpx>",
		"laughs":       laughs + strings.Replace(head, ">", "><metadata><name>&b;</name></metadata>", 1), "laughs in an attribute": laughs + `<gpx creator="&b;">`,
		"a long name of the root": "<" + long + "/>", "a long name closed by another": head + "<" + long + "></" + long + "y>",
		"a long namespace": `<gpx xmlns="` + long + `"/>`, "a long version": strings.Replace(head, "1.1\"", long+"\"", 1),
		"a long latitude": point(long), "a latitude of many figures": point(strings.Repeat("9", 200_000)), "a long time": head + `<wpt lat="1" lon="1"><time>` + long + `</time></wpt></gpx>`,
		"1e308": point("1e308"), "-1e308": point("-1e308"), "NaN": point("NaN"), "Inf": point("Inf"), "hexadecimal": point("0x1p3"), "1_0": point("1_0"), "a NUL in a figure": point("1&#0;"),
		"a long encoding": `<?xml version="1.0" encoding="` + long + `"?>` + point("1"),
	} {
		if name == "a long version" && !strings.Contains(text, long) {
			t.Fatal("the head has no version")
		}
		_, err := gpx.Read(strings.NewReader(text))
		refusedBriefly(t, name, err, "")
	}
}

func TestManyRoutesAndReadersInPieces(t *testing.T) {
	wet := errors.New("wet")
	var b strings.Builder
	for i := range 20_000 {
		fmt.Fprintf(&b, "<rte><name>a<!-- -->%d<x>no</x></name></rte>", i)
	}
	text := head + b.String() + "</gpx>"
	for name, r := range map[string]io.Reader{"whole": strings.NewReader(text), "byte by byte": iotest.OneByteReader(strings.NewReader(text)), "the end with the data": iotest.DataErrReader(strings.NewReader(text))} {
		if d, err := gpx.Read(r); err != nil || len(d.Routes) != 20_000 || d.Routes[7].Name != "a7" {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err := gpx.Read(io.MultiReader(strings.NewReader(text[:5000]), iotest.ErrReader(wet)))
	if refusedBriefly(t, "midway", err, "wet"); !errors.Is(err, wet) {
		t.Error(err)
	}
	_, err = gpx.Read(iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader(text))))
	refusedBriefly(t, "a time-out", err, "timeout")
}
