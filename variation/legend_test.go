package variation_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

const (
	deg    = angle.Degree
	minute = angle.Minute
	second = angle.Second
)

var (
	notStated = variation.AnnualChange{}
	nil0      = variation.NoChange()
	east8     = variation.Eastward(8 * minute)
	west8     = variation.Westward(8 * minute)
)

// legalLegends are legends that are read, as what, and how they are printed.
var legalLegends = []struct {
	text       string
	east       angle.Angle
	year       int
	change     variation.AnnualChange
	step       angle.Angle
	changeStep angle.Angle
	printed    string
	words      string
}{
	// The international form.
	{"4°15′W 2009 (8′E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′E 2009 (8′E)", 4*deg + 15*minute, 2009, east8, minute, minute, "4°15′E 2009 (8′E)", "4°15′E (2009), annual increase 8′"},
	{"4°15′E 2009 (8′W)", 4*deg + 15*minute, 2009, west8, minute, minute, "4°15′E 2009 (8′W)", "4°15′E (2009), annual decrease 8′"},
	{"4°15.0′W 2009 (8.5′W)", -(4*deg + 15*minute), 2009, variation.Westward(8*minute + 30*second), minute / 10, minute / 10, "4°15.0′W 2009 (8.5′W)", "4°15.0′W (2009), annual increase 8.5′"},
	{"4°15′W 2009", -(4*deg + 15*minute), 2009, notStated, minute, 0, "4°15′W 2009", "4°15′W (2009)"},
	{"4°15′W 2009 ()", -(4*deg + 15*minute), 2009, notStated, minute, 0, "4°15′W 2009", "4°15′W (2009)"},
	{"0°12′W 2009 (0°08′E)", -12 * minute, 2009, east8, minute, minute, "0°12′W 2009 (8′E)", "0°12′W (2009), annual decrease 8′"},
	{"179°50′E 2009 (1°02′E)", 179*deg + 50*minute, 2009, variation.Eastward(62 * minute), minute, minute, "179°50′E 2009 (1°02′E)", "179°50′E (2009), annual increase 1°02′"},
	{"180°W 1500 (4°59′E)", 180 * deg, 1500, variation.Eastward(5*deg - minute), deg, minute, "180°E 1500 (4°59′E)", "180°E (1500), annual increase 4°59′"},
	{"4°15′W 2500 (8′E)", -(4*deg + 15*minute), 2500, east8, minute, minute, "4°15′W 2500 (8′E)", "4°15′W (2500), annual decrease 8′"},

	// Other brackets, blanks, dashes and stops, and none.
	{" 4° 15′ W \t— [ 2009 ] [ 8′ E ] ", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′W(2009)(8′E.)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′W 2009, 8′E", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"W4°15′ 2009 (E8′)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4\u00a015\u202fW\u20092009\u00a0(8′E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},

	// Look-alikes of the marks.
	{"4°15'W 2009 (8'E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4º15’W 2009 (8’E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4˚15´W 2009 (8´E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4∘15ʹW 2009 (8`E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′30”W 2009 (0'30''E)", -(4*deg + 15*minute + 30*second), 2009, variation.Eastward(30 * second), second, second, "4°15′30″W 2009 (0′30″E)", "4°15′30″W (2009), annual decrease 0′30″"},

	// Words.
	{"VAR 14°45'W (1985) ANNUAL INCREASE 8'", -(14*deg + 45*minute), 1985, west8, minute, minute, "14°45′W 1985 (8′W)", "14°45′W (1985), annual increase 8′"},
	{"VAR 14°45'W (1985) ANNUAL DECREASE 8'", -(14*deg + 45*minute), 1985, east8, minute, minute, "14°45′W 1985 (8′E)", "14°45′W (1985), annual decrease 8′"},
	{"VAR 14°45'E (1985) annual increase 8'", 14*deg + 45*minute, 1985, east8, minute, minute, "14°45′E 1985 (8′E)", "14°45′E (1985), annual increase 8′"},
	{"VAR 14°45'E (1985) annual decrease 8'", 14*deg + 45*minute, 1985, west8, minute, minute, "14°45′E 1985 (8′W)", "14°45′E (1985), annual decrease 8′"},
	{"Mag Var 8 deg 40 min E (1979) increasing about 2 min annually", 8*deg + 40*minute, 1979, variation.Eastward(2 * minute), minute, minute, "8°40′E 1979 (2′E)", "8°40′E (1979), annual increase 2′"},
	{"Mag. Var. 8 deg. 40 min. E. (1979) increasing about 2 min. annually.", 8*deg + 40*minute, 1979, variation.Eastward(2 * minute), minute, minute, "8°40′E 1979 (2′E)", "8°40′E (1979), annual increase 2′"},
	{"Magnetic Variation 8°40′E (1979) increasing about 2′ annually", 8*deg + 40*minute, 1979, variation.Eastward(2 * minute), minute, minute, "8°40′E 1979 (2′E)", "8°40′E (1979), annual increase 2′"},
	{"VAR.14°45′W (1985) ANNUAL INCREASE 8′", -(14*deg + 45*minute), 1985, variation.Westward(8 * minute), minute, minute, "14°45′W 1985 (8′W)", "14°45′W (1985), annual increase 8′"},
	{"Magn. Var. 4°15′W 2009 (8′E/yr)", -(4*deg + 15*minute), 2009, variation.Eastward(8 * minute), minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′W epoch 2009 (8′E)", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"Variation 9° West in 1914. Increasing 6′ per year", -9 * deg, 1914, variation.Westward(6 * minute), deg, minute, "9°W 1914 (6′W)", "9°W (1914), annual increase 6′"},
	{"Varn 20°10′ Westerly in 1850, Decreasing 8′ Yearly", -(20*deg + 10*minute), 1850, east8, minute, minute, "20°10′W 1850 (8′E)", "20°10′W (1850), annual decrease 8′"},
	{"20°10′ easterly for year 1850 diminishing 8′ each year", 20*deg + 10*minute, 1850, west8, minute, minute, "20°10′E 1850 (8′W)", "20°10′E (1850), annual decrease 8′"},
	{"Declination 4°15′W 2009 changing by 8′E per annum", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′W 2009 annual rate of change 8 minutes East p.a.", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′W 2009 decreasing 8′E", -(4*deg + 15*minute), 2009, east8, minute, minute, "4°15′W 2009 (8′E)", "4°15′W (2009), annual decrease 8′"},
	{"4°15′W 2009 (8′W increasing)", -(4*deg + 15*minute), 2009, west8, minute, minute, "4°15′W 2009 (8′W)", "4°15′W (2009), annual increase 8′"},

	// No change, in every wording.
	{"3°50′W 2014 (no annual change)", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 (no change)", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 (nil)", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 annual change none", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 annual change: negligible", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014, zero change", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 no annual increase", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 (0)", -(3*deg + 50*minute), 2014, nil0, minute, 0, "3°50′W 2014 (no annual change)", "3°50′W (2014), no annual change"},
	{"3°50′W 2014 (0′)", -(3*deg + 50*minute), 2014, nil0, minute, minute, "3°50′W 2014 (0′)", "3°50′W (2014), annual change 0′"},
	{"3°50′W 2014 (0′E)", -(3*deg + 50*minute), 2014, nil0, minute, minute, "3°50′W 2014 (0′)", "3°50′W (2014), annual change 0′"},
	{"3°50′W 2014 increasing 0.0′", -(3*deg + 50*minute), 2014, nil0, minute, minute / 10, "3°50′W 2014 (0.0′)", "3°50′W (2014), annual change 0.0′"},

	// A variation of zero has the name that it is given.
	{"0°E 2009 (8′E)", 0, 2009, east8, deg, minute, "0°E 2009 (8′E)", "0°E (2009), annual increase 8′"},
	{"0° 2009 (8′W)", 0, 2009, west8, deg, minute, "0°W 2009 (8′W)", "0°W (2009), annual increase 8′"},
	{"0°00′W 2009 increasing 8′", 0, 2009, west8, minute, minute, "0°00′W 2009 (8′W)", "0°00′W (2009), annual increase 8′"},
	{"0°00′W 2009 decreasing 8′", 0, 2009, east8, minute, minute, "0°00′E 2009 (8′E)", "0°00′E (2009), annual increase 8′"},
	{"0°00′E 2009 decreasing 8′", 0, 2009, west8, minute, minute, "0°00′W 2009 (8′W)", "0°00′W (2009), annual increase 8′"},
	{"0° 2009 increasing 8′W", 0, 2009, west8, deg, minute, "0°W 2009 (8′W)", "0°W (2009), annual increase 8′"},
	{"0 2009", 0, 2009, notStated, deg, 0, "0°E 2009", "0°E (2009)"},

	// Fractions and decimals.
	{"4½°W 2009 (8′E)", -(4*deg + 30*minute), 2009, east8, deg / 2, minute, "4½°W 2009 (8′E)", "4½°W (2009), annual decrease 8′"},
	{"4 1/2°W 2009 (7½′E)", -(4*deg + 30*minute), 2009, variation.Eastward(7*minute + 30*second), deg / 2, minute / 2, "4½°W 2009 (7½′E)", "4½°W (2009), annual decrease 7½′"},
	{"4¾°W 2009 (¼°E)", -(4*deg + 45*minute), 2009, variation.Eastward(15 * minute), deg / 4, deg / 4, "4¾°W 2009 (¼°E)", "4¾°W (2009), annual decrease ¼°"},
	{"⅛°W 2009 (½′E)", -(7*minute + 30*second), 2009, variation.Eastward(30 * second), deg / 8, minute / 2, "⅛°W 2009 (½′E)", "⅛°W (2009), annual decrease ½′"},
	{"4.25W 2009 (8′E)", -(4*deg + 15*minute), 2009, east8, deg / 100, minute, "4.25°W 2009 (8′E)", "4.25°W (2009), annual decrease 8′"},
	{"4.3° W 2009 (0.1°E)", -(4*deg + 18*minute), 2009, variation.Eastward(6 * minute), deg / 10, deg / 10, "4.3°W 2009 (0.1°E)", "4.3°W (2009), annual decrease 0.1°"},
	{"4.0°W 2009 (.13 deg E)", -4 * deg, 2009, variation.Eastward(7*minute + 48*second), deg / 10, deg / 100, "4.0°W 2009 (0.13°E)", "4.0°W (2009), annual decrease 0.13°"},
	{"4°15′30″W 2009 (8′30″E)", -(4*deg + 15*minute + 30*second), 2009, variation.Eastward(8*minute + 30*second), second, second, "4°15′30″W 2009 (8′30″E)", "4°15′30″W (2009), annual decrease 8′30″"},
	{"4°15′30.5″W 2009 (8 min 30 sec E)", -(4*deg + 15*minute + 30*second + second/2), 2009, variation.Eastward(8*minute + 30*second), second / 10, second, "4°15′30.5″W 2009 (8′30″E)", "4°15′30.5″W (2009), annual decrease 8′30″"},
	{"2¼ points W 2009 (8′E)", -(2*angle.Point + angle.Point/4), 2009, east8, angle.Point / 4, minute, "2¼ points W 2009 (8′E)", "2¼ points W (2009), annual decrease 8′"},
}

func TestLegalLegends(t *testing.T) {
	for _, c := range legalLegends {
		r, err := variation.ParseLegend(c.text)
		want := variation.Rose{Variation: variation.East(c.east), Year: c.year, Change: c.change, Step: c.step, ChangeStep: c.changeStep}
		if err != nil || r != want {
			t.Errorf("%q: %+v, %v\nwant %+v", c.text, r, err, want)
			continue
		}
		if got := r.String(); got != c.printed {
			t.Errorf("%q prints as %q, want %q", c.text, got, c.printed)
		}
		if got := r.LegendInWords(); got != c.words {
			t.Errorf("%q in words: %q, want %q", c.text, got, c.words)
		}
	}
}

// illegalLegends are legends with an error; | marks its offset.
var illegalLegends = []struct {
	text string
	kind angle.ErrorKind
	want string // part of the message, or the kind of the figure's error
}{
	{"|", variation.NoYear, "no year"},
	{" \t |", variation.NoYear, ""},
	{"4°15′W (8′E)|", variation.NoYear, "four figures"},
	{"4°15′W 209 (8′E)|", variation.NoYear, ""},
	{"4°15′W 12009 (8′E)|", variation.NoYear, ""},
	{"4°15′W 2009.5 (8′E)|", variation.NoYear, ""},
	{"4°15′W 2009′ (8′E)|", variation.NoYear, ""},
	{"4.2009°W (8′E)|", variation.NoYear, ""},
	{"NaN|", variation.NoYear, ""},
	{"4°15′W |1499 (8′E)", variation.NoYear, "1500 to 2500"},
	{"4°15′W |2501 (8′E)", variation.NoYear, "1500 to 2500"},
	{"4°15′W 2009 |2010 (8′E)", variation.TwoYears, "two years"},
	{"4°15′W 2009 (8′E) |2010", variation.TwoYears, ""},
	{"4°15′W 2009 (|2010)", variation.TwoYears, ""},

	{"|2009 4°15′W (8′E)", variation.BadFigure, "no variation before the year"},
	{"VAR |2009 (8′E)", variation.BadFigure, "no variation before the year"},
	{"|NaN 2009 (8′E)", angle.UnknownWord, "is not a word of a legend"},
	{"|Inf W 2009 (8′E)", angle.UnknownWord, "is not a word of a legend"},
	{"4°|61′W 2009 (8′E)", variation.BadFigure, "minutes-out-of-range"},
	{"4°15′|61″W 2009 (8′E)", variation.BadFigure, "seconds-out-of-range"},
	{"Var |4.5°15′W 2009 (8′E)", variation.BadFigure, "fraction-not-last"},
	{"4|,25°W 2009 (8′E)", variation.BadFigure, "bad-separator"},
	{"|181°W 2009 (8′E)", variation.BadFigure, "180° W to 180° E"},
	{"4°15′|N 2009 (8′E)", variation.BadFigure, "wrong-name"},
	{"|N4°15′ 2009 (8′E)", variation.BadFigure, "wrong-name"},
	{"-4.25|W 2009 (8′E)", variation.BadFigure, "sign-and-name"},
	{"E4°15′ |W 2009 (8′E)", variation.BadFigure, "two-names"},
	{"4°15′W |±0°30′ 2009 (8′E)", variation.BadFigure, "trailing-text"},
	{"4°15′W |Jan 2009 (8′E)", variation.BadFigure, "trailing-text"},
	{"|Ship's variation 4°15′W 2009", angle.UnknownWord, "is not a word of a legend"},
	{"20°10′W |in the Year 1850", variation.BadFigure, "trailing-text"},

	{"4°15′|\xff\xfeW 2009 (8′E)", variation.NoName, ""},
	{"4°15′| 2009 (8′E)", variation.NoName, "missing-name"},
	{"4.25°| 2009 (8′E)", variation.NoName, "write E or W after it, such as 4°15′W"},
	{"-4.25| 2009 (8′E)", variation.NoName, "write E or W after it, such as 4°15′W"},
	{"4°15′| 2009 W (8′E)", variation.NoName, ""},

	// Words of other languages; an O that is west in one and east in the next.
	{"|Déclinaison 4°15′W 2009 (8′E)", angle.UnknownWord, "such as 4°15′W"},
	{"|Écart 4°15′W 2009 (8′E)", angle.UnknownWord, ""},
	{"Var |Est 4°15′ 2009 (8′E)", angle.UnknownWord, ""},
	{"4°15′|O 2009 (8′E)", angle.UnknownWord, "west in some languages"},
	{"|O 4°15′ 2009 (8′E)", angle.UnknownWord, "west in some languages"},
	{"4°15′W 2009 (8′|O)", angle.UnknownWord, "west in some languages"},
	{"4°15′W 2009 (|O 8′)", angle.UnknownWord, "west in some languages"},
	{"4°15′W 2009 (|+8′)", angle.UnknownWord, `"+" may mean W`},

	{"4°15′W 2009 (|x)", angle.UnknownWord, `"x" is not part of an annual change; write it as (8′E)`},
	{"4°15′W 2009 (|unchanging)", angle.UnknownWord, ""},
	{"4°15′W 2009 (8′|N)", angle.UnknownWord, ""},
	{"4°15′W 2009 (8′|EE)", angle.UnknownWord, ""},
	{"4°15′W 2009 (8|m E)", angle.UnknownWord, ""},
	{"4°15′W 2009 (8′E) |rubbish", angle.UnknownWord, ""},
	{"4°15′W 2009 (8′E) |VAR", angle.UnknownWord, ""},
	{"4°15′W 2009 |?", angle.UnknownWord, ""},
	{"4°15′W 2009 (|-8′)", angle.UnknownWord, `"-" may mean W, or a decrease`},
	{"4°15′W 2009 (|−8′E)", angle.UnknownWord, "write E or W"},
	{"4°15′W 2009 (|NaN′E)", angle.UnknownWord, ""},
	{"4°15′W 2009 (|\xff8′E)", angle.UnknownWord, ""},

	{"4°15′W 2009 (8′E) (|9′E)", variation.BadFigure, "two annual changes"},
	{"4°15′W 2009 (8′E|°)", variation.BadFigure, "two annual changes"},
	{"4°15′W 2009 (|61′E)", variation.BadFigure, "minutes-out-of-range"},
	{"4°15′W 2009 (1°|60′E)", variation.BadFigure, "minutes-out-of-range"},
	{"4°15′W 2009 (|180°E)", variation.BadFigure, "less than 5°"},
	{"4°15′W 2009 (|5°00′E)", variation.BadFigure, "less than 5°"},
	{"4°15′W 2009 (|12°E)", variation.BadFigure, "12′"},
	{"4°15′W 2009 (|2°E)", variation.BadFigure, "probably 2′; if degrees are meant, write 2°00′"},
	{"4°15′W 2009 increasing |1 deg annually", variation.BadFigure, "probably 1′"},
	{"4°15′W 2009 (|12″E)", variation.BadFigure, "probably 12′; if seconds are meant, write 0′12″"},
	{"4°15′W 2009 (|12''E)", variation.BadFigure, "probably 12′"},
	{"4°15′W 2009 (|12 sec E)", variation.BadFigure, "probably 12′"},
	{"4°15′W 2009 decreasing |1½″ annually", variation.BadFigure, "probably 1½′"},
	{"4°|\n15′W 2009 (8′E)", variation.BadFigure, ""},
	{"4°15′W 2009 (½|)", variation.BadFigure, "no-number"},
	{"4°15′W 2009 (|E)", variation.BadFigure, "no figure of the annual change"},
	{"4°15′W 2009 (|w)", variation.BadFigure, "no figure of the annual change"},
	{"4°15′W 2009 |increasing", variation.BadFigure, "no figure of the annual change"},
	{"4°15′W 2009 annual |decrease", variation.BadFigure, "no figure of the annual change"},
	{"4°15′W 2009 |annual change", variation.BadFigure, "no figure of the annual change"},

	{"4°15′W 2009 (8′|)", variation.ChangeWithoutSide, "no name; write it as (8′E)"},
	{"4°15′W 2009 annual change 8 min| a year", variation.ChangeWithoutSide, ""},
	{"0° 2009 increasing 8′|", variation.ChangeWithoutSide, "a variation of zero"},
	{"0°00′ 2009 decreasing 8′| annually", variation.ChangeWithoutSide, "a variation of zero"},

	{"4°15′W 2009 (|8)", variation.ChangeWithoutUnit, "no unit; write it as (8′E)"},
	{"4°15′W 2009 (|8E)", variation.ChangeWithoutUnit, ""},
	{"4°15′W 2009 (|.1E)", variation.ChangeWithoutUnit, ""},
	{"4°15′W 2009 (|1 02E)", variation.ChangeWithoutUnit, ""},
	{"4°15′W 2009 (|0-08E)", variation.ChangeWithoutUnit, ""},
	{"4°15′W 2009 (|8·5E)", variation.ChangeWithoutUnit, ""},
	{"4°15′W 2009 (|0‐08E)", variation.ChangeWithoutUnit, ""},
	{"4°15′W 2009 increasing |8 annually", variation.ChangeWithoutUnit, ""},

	{"4°15′W 2009 decreasing |8′W", variation.Contradiction, "contradicts increase or decrease"},
	{"4°15′W 2009 increasing |8′E", variation.Contradiction, ""},
	{"4°15′E 2009 increasing |8′ W annually", variation.Contradiction, ""},
	{"4°15′E 2009 (|8′E decreasing)", variation.Contradiction, ""},
	{"0°E 2009 increasing |8′W", variation.Contradiction, ""},
	{"4°15′W 2009 |no change 8′E", variation.Contradiction, "both that there is no change"},
	{"4°15′W 2009 (8′E |W)", variation.Contradiction, "both names, E and W"},
	{"4°15′W 2009 (W 8′ |E)", variation.Contradiction, "both names, E and W"},
	{"4°15′W 2009 increasing |decreasing 8′", variation.Contradiction, "both increase and decrease"},
	{"4°15′W 2009 decreasing 8′, |increasing", variation.Contradiction, "both increase and decrease"},

	// A full stop that might be a decimal point.
	{"Var|.9°W 1914", variation.BadFigure, "a blank after the full stop"},
	{"9°W 1914 incr|.6′ annually", variation.BadFigure, "a blank after the full stop"},
	{"9°W 1914 (E|.8′)", variation.BadFigure, "a blank after the full stop"},
	{"9°W 1914 (8 min|.5 E)", variation.BadFigure, "a blank after the full stop"},
}

func TestIllegalLegends(t *testing.T) {
	for _, c := range illegalLegends {
		before, after, _ := strings.Cut(c.text, "|")
		text := before + after
		r, err := variation.ParseLegend(text)
		if r != (variation.Rose{}) {
			t.Errorf("%q: a rose with the error: %v", text, r)
		}
		e, ok := errors.AsType[*variation.Error](err)
		if !ok {
			t.Errorf("%q: %v, %v; want a refusal", text, r, err)
			continue
		}
		if e.Kind != c.kind || e.Offset != len(before) || e.Input != text {
			t.Errorf("%q: %s at byte %d, want %s at byte %d: %v", text, e.Kind, e.Offset, c.kind, len(before), err)
		}
		figure, is := errors.AsType[*angle.ParseError](err)
		if !strings.Contains(err.Error(), c.want) && (!is || string(figure.Kind) != c.want) {
			t.Errorf("%q: message %q lacks %q", text, err, c.want)
		}
	}
}

// A fault of a figure has the error of package angle, for the part of the legend that is the
// figure.
func TestLegendErrorWrapsFigureError(t *testing.T) {
	for text, want := range map[string]angle.ParseError{
		"Var 4°61′W 2009":       {What: "angle east or west", Input: "4°61′W", Offset: 3, Kind: angle.MinutesOutOfRange, Want: "less than 60"},
		"4°15′W 2009 (61′ E)":   {What: "angle east or west", Input: "61′", Offset: 0, Kind: angle.MinutesOutOfRange, Want: "less than 60"},
		"Var 4°15′ 2009 (8′ E)": {What: "angle east or west", Input: "4°15′", Offset: 8, Kind: angle.MissingName, Want: "E or W"},
	} {
		_, err := variation.ParseLegend(text)
		p, ok := errors.AsType[*angle.ParseError](err)
		if !ok || *p != want {
			t.Errorf("%q: %v, want %v", text, p, &want)
		}
	}
	_, err := variation.ParseLegend("4°15′W")
	if errors.Unwrap(err) != nil {
		t.Errorf("a refusal that is not the figure's wraps %v", errors.Unwrap(err))
	}
}

func TestMustParseLegendPanicsOnAnError(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	variation.MustParseLegend("4°15′W")
}
