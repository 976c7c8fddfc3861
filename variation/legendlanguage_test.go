package variation_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// legendsIn are legends in a language and what they say in English.
//
// The first two are printed: solutions to the official navigation exercises of the German
// waterways administration (chart D49 / INT 1463), exercises 2 (about 2013) and 13 (2014).
// German charts print E. The rest are made up. Their words and O are common practice, from
// memory.
var legendsIn = []struct {
	language      variation.Language
	text, english string
}{
	{variation.German, "0°45'E 2010 (5'E)", "0°45'E 2010 (5'E)"},
	{variation.German, "0°50'E 2010 (5'E)", "0°50'E 2010 (5'E)"},

	{variation.English, "4°15′W 2009 (8′E)", "4°15′W 2009 (8′E)"},
	{variation.German, "4°15′ O 2009 (8′ W)", "4°15′E 2009 (8′W)"},
	{variation.German, "Mißweisung 4°15′ W (2009), jährliche Abnahme 8′", "VAR 4°15′W (2009) annual decrease 8′"},
	{variation.German, "MISSWEISUNG 4°15,5′ OST (2009) JÄHRLICHE ZUNAHME 8,5′", "VAR 4°15.5′E (2009) annual increase 8.5′"},
	{variation.German, "Mw. 4 Grad 15 Minuten westlich im Jahre 2009, jaehrlich etwa 8 min abnehmend", "VAR 4 deg 15 min W 2009 decreasing 8 min"},
	{variation.German, "Magnetische Deklination 4°W 2009, keine jährliche Änderung", "4°W 2009 no annual change"},
	{variation.French, "4°15,5′ O 2009 (8′ E)", "4°15.5′W 2009 (8′E)"},
	{variation.French, "Déclinaison 4°15′ Ouest en 2009, diminue de 8′ par an", "4°15′W 2009 decreasing 8′"},
	{variation.French, "DECLINAISON MAGNETIQUE 4°15′ EST (2009) CROISSANTE DE 8′ ENVIRON", "4°15′E 2009 increasing 8′"},
	{variation.French, "De\u0301clinaison de l’aiguille 4°E 2009", ""}, // a word unknown
	{variation.French, "Déclinaison 4°15′ O (2009), variation annuelle 8′ vers l’Est", "4°15′W 2009 (8′E)"},
	{variation.French, "De\u0301clinaison 4,5 degrés O (2009), décroissant annuellement d'environ 8′", "4.5°W 2009 decreasing 8′"},
	{variation.French, "4°O 2009, variation annuelle nulle", "4°W 2009 no annual change"},
	{variation.Spanish, "4°15′ O 2009 (8′ E)", "4°15′W 2009 (8′E)"},
	{variation.Spanish, "Declinación magnética 4°15′ Oeste en el año 2009, decrece 8′ al año", "4°15′W 2009 decreasing 8′"},
	{variation.Spanish, "Declinación magnética 4°15,5′ Oeste año 2009, decrece 8,5′ al año", "4°15.5′W 2009 decreasing 8.5′"},
	{variation.Spanish, "VARIACION 4°15′ ESTE (2009) AUMENTA 8′ ANUALMENTE", "4°15′E 2009 increasing 8′"},
	{variation.Spanish, "dm 4°15′W 2009", ""},
	{variation.Spanish, "4°O 2009, sin variación anual", "4°W 2009 no annual change"},
}

func TestLegendsInLanguages(t *testing.T) {
	for _, c := range legendsIn {
		got, err := variation.ParseLegendIn(c.text, c.language)
		if c.english == "" {
			if _, ok := errors.AsType[*variation.Error](err); !ok {
				t.Errorf("%s: %q: %v, %v; want an error", c.language, c.text, got, err)
			}
			continue
		}
		if want := variation.MustParseLegend(c.english); err != nil || got != want {
			t.Errorf("%s: %q: %v, %v; want %v", c.language, c.text, got, err, want)
		}
	}
}

// The offset and the quoted part of an error are those of the text as given; | marks the offset.
func TestIllegalLegendsInLanguages(t *testing.T) {
	for _, c := range []struct {
		language variation.Language
		text     string
		kind     angle.ErrorKind
		want     string
	}{
		{"", "|4°15′ O 2009", angle.UnknownWord, "unknown language"},
		{"it", "|4°15′ O 2009", angle.UnknownWord, "de, en, es and fr"},
		{variation.English, "4°15′ |O 2009", angle.UnknownWord, "name the language"},
		{variation.English, "4°15′W 2009 (8′ |O)", angle.UnknownWord, "name the language"},
		{variation.English, "4|,5°W 2009", variation.BadFigure, "decimal point"},
		{variation.German, "4°15′ |Ouest 2009", angle.UnknownWord, `"Ouest" is not a word of a legend in the language de`},
		{variation.French, "4°15′ |Ost 2009", angle.UnknownWord, `"Ost"`},
		{variation.Spanish, "4°15′ O 2009 |décroissant 8′", angle.UnknownWord, `"décroissant"`},
		{variation.German, "4°15′W 2009 |increasing 8′", angle.UnknownWord, ""},
		{variation.German, "Mißweisung 4°|61,5′ O 2009", variation.BadFigure, `"4°61,5′ O"`},
		{variation.German, "Mißweisung 4°15′| 2009", variation.NoName, ""},
		{variation.German, "Mißweisung 4°15′ O 2009, zunehmend |8′ W", variation.Contradiction, ""},
		{variation.German, "Mißweisung 4°15′ O 2009 (8′ O) |für", angle.UnknownWord, `"für" is not part`},
		{variation.French, "Déclinaison 4°15′ O 2009 (8′|)", variation.ChangeWithoutSide, ""},
		{variation.French, "Déclinaison 4°15′ O|", variation.NoYear, ""},
		{variation.French, "Décl|.9°O 2009", variation.BadFigure, "full stop"},
		{variation.French, "Décl|,9°O 2009", variation.BadFigure, "a comma touches a figure"},
		{variation.French, "4°15′ O 2009,8′E|", variation.NoYear, ""},
		{variation.Spanish, "4°15′ O 2009 8′ E año |9′ E", variation.BadFigure, "two annual changes"},
	} {
		before, after, _ := strings.Cut(c.text, "|")
		text := before + after
		r, err := variation.ParseLegendIn(text, c.language)
		e, ok := errors.AsType[*variation.Error](err)
		if !ok || r != (variation.Rose{}) {
			t.Errorf("%s: %q: %v, %v; want an error", c.language, text, r, err)
			continue
		}
		if c.kind != "" && (e.Kind != c.kind || e.Offset != len(before) || e.Input != text || !strings.Contains(e.Reason, c.want)) {
			t.Errorf("%s: %q: %s at byte %d, want %s at %d with %q: %v", c.language, text, e.Kind, e.Offset, c.kind, len(before), c.want, err)
		}
	}
}

// inLanguage writes an English legend as one of another language; words from memory.
var inLanguage = map[variation.Language]*strings.Replacer{
	variation.German: strings.NewReplacer("E", " O", "W", " W", ".", ",", "annual increase", "jährliche Zunahme",
		"annual decrease", "jährliche Abnahme", "no annual change", "keine jährliche Änderung", "annual change", "jährliche Änderung"),
	variation.French: strings.NewReplacer("E", " Est", "W", " O", ".", ",", "annual increase", "croissance annuelle",
		"annual decrease", "décroissance annuelle", "no annual change", "aucune variation annuelle", "annual change", "variation annuelle"),
	variation.Spanish: strings.NewReplacer("E", " Este", "W", "O", ".", ",", "annual increase", "incremento anual",
		"annual decrease", "decremento anual", "no annual change", "sin variación anual", "annual change", "variación anual"),
}

func TestLegendMeansTheSameInEveryLanguage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPrintedRose(t)
		for language, in := range inLanguage {
			for _, english := range []string{r.String(), r.LegendInWords()} {
				text := in.Replace(english)
				for _, text := range []string{text, strings.ToUpper(text), strings.ToLower(text)} {
					if back, err := variation.ParseLegendIn(text, language); err != nil || back != r {
						t.Fatalf("%s: %q reads as %+v, %v\nwant %+v", language, text, back, err, r)
					}
				}
			}
		}
	})
}

// The international form is the same in every language, and English is the default.
func TestEnglishLegendsAreReadAsBefore(t *testing.T) {
	for _, c := range legalLegends {
		want, err := variation.ParseLegend(c.text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := variation.ParseLegendIn(c.text, variation.English); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", c.text, got, err, want)
		}
		for language := range inLanguage {
			// A legend that a language reads is never another rose there.
			if got, err := variation.ParseLegendIn(c.text, language); err == nil && got != want {
				t.Errorf("%s: %q: %v, want %v", language, c.text, got, want)
			}
			if got, err := variation.ParseLegendIn(want.String(), language); err != nil && !strings.Contains(want.String(), "no annual") && !strings.Contains(want.String(), "points") || err == nil && got != want {
				t.Errorf("%s: %q: %v, %v; want %v", language, want, got, err, want)
			}
		}
	}
}

func TestReadChartNamesLanguage(t *testing.T) {
	const file = "position,legend,language\n47N 19W,3°50′O 2014,fr\n47N 18W,3°50′O 2014,de\n47N 17W,3°50′W 2014,\n"
	c, err := variation.ReadChart("", strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"3°50′W 2014", "3°50′E 2014", "3°50′W 2014"} {
		if got := c.Roses()[i].Rose.String(); got != want {
			t.Errorf("rose %d: %s, want %s", i, got, want)
		}
	}
	_, err = variation.ReadChart("", strings.NewReader(strings.Replace(file, ",fr", ",it", 1)))
	if err == nil || !strings.Contains(err.Error(), "unknown language") {
		t.Errorf("an unknown language: %v", err)
	}
}

func FuzzParseLegendIn(f *testing.F) {
	for _, c := range legendsIn {
		f.Add(string(c.language), c.text)
	}
	for _, c := range illegalLegends {
		f.Add("fr", strings.Replace(c.text, "|", "", 1))
	}
	f.Add("fr", "l'\u0301\xff,9 d’")
	f.Fuzz(func(t *testing.T, language, text string) {
		r, err := variation.ParseLegendIn(text, variation.Language(language))
		if err != nil {
			e, ok := errors.AsType[*variation.Error](err)
			if !ok || e.Input != text || e.Offset < 0 || e.Offset > len(text) || e.Kind == "" || e.Reason == "" || r != (variation.Rose{}) {
				t.Fatalf("%v, %#v", r, err)
			}
			if p, ok := errors.AsType[*angle.ParseError](err); ok && (p.Offset < 0 || p.Offset > len(p.Input) || !strings.Contains(text, p.Input)) {
				t.Fatalf("%#v", p)
			}
			return
		}
		if back, err := variation.ParseLegend(r.String()); err != nil || !sameRose(back, r) {
			t.Fatalf("%q prints as %q, which reads as %+v, %v; was %+v", text, r, back, err, r)
		}
	})
}
