package variation

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"lubberline.example/angle"
)

// A Language is a language of legends, as its code of ISO 639-1.
type Language string

// The languages of legends.
const (
	English Language = "en"
	French  Language = "fr" // O is west
	German  Language = "de" // O is east
	Spanish Language = "es" // O is west
)

// ParseLegendIn is [ParseLegend] for a legend in a named language:
//
//	4°15,5′ O 2009 (8′ E)                                     in French or Spanish: west
//	4°15′ O 2009 (8′ W)                                       in German: east
//	Mißweisung 4°15′ W (2009), jährliche Abnahme 8′           in German
//	Déclinaison 4°15′ Ouest en 2009, diminue de 8′ par an     in French
//	Declinación magnética 4°15′ O (2009), decrece 8′ al año   in Spanish
//
// E and W mean east and west in every language. In French, German and Spanish a comma
// between two figures is a decimal comma. A decimal point is read too. Accents may be left out.
// Words of other languages are refused. For an unknown language, as for any other legend, it
// returns an [*Error].
func ParseLegendIn(text string, language Language) (Rose, error) {
	if language == English {
		return ParseLegend(text)
	}
	words, ok := legendWords[language]
	if !ok {
		reason := fmt.Sprintf("unknown language %.40q; the languages are de, en, es and fr", string(language))
		return Rose{}, &Error{Kind: angle.UnknownWord, Input: text, Reason: reason}
	}
	l, err := translate(text, language, words)
	if err != nil {
		return Rose{}, err
	}
	return l.parse()
}

// translate returns a legend in English, which knows where its parts come from.
func translate(text string, language Language, words map[string]string) (legend, error) {
	var b strings.Builder
	l := legend{source: text}
	write := func(s string, at, step int) {
		for i := range len(s) {
			l.at = append(l.at, at+i*step)
		}
		b.WriteString(s)
	}
	for at := 0; at < len(text); {
		word, end := foldedWord(text, at)
		if end == at {
			_, width := utf8.DecodeRuneInString(text[at:])
			part := text[at : at+width]
			if part == "," && at+1 < len(text) && isDigit(text[at+1]) {
				if at == 0 || !isDigit(text[at-1]) {
					return l, &Error{Kind: BadFigure, Input: text, Offset: at, Reason: wantBlankAfterComma}
				}
				part = "."
			}
			write(part, at, 1)
			at += width
			continue
		}
		if next, width := utf8.DecodeRuneInString(text[end:]); language == French && (word == "l" || word == "d") && (next == '\'' || next == '’') {
			if _, after := foldedWord(text, end+width); after > end+width { // l’est, d’environ
				write(" ", at, 0)
				at = end + width
				continue
			}
		}
		meaning, ok := words[word]
		if !ok {
			reason := fmt.Sprintf("%.40q is not a word of a legend in the language %s; write it as 4°15′W 2009 (8′E), or name its language", text[at:end], language)
			return l, &Error{Kind: angle.UnknownWord, Input: text, Offset: at, Reason: reason}
		}
		write(meaning, at, 0)
		at = end
	}
	l.text, l.at = b.String(), append(l.at, len(text))
	return l, nil
}

const wantBlankAfterComma = "a comma touches a figure; write a blank after the comma, or 0 before a decimal comma"

// foldedWord returns the run of letters at an offset, in lower case and without accents, and
// where it ends.
func foldedWord(s string, at int) (word string, end int) {
	var b strings.Builder
	for end = at; end < len(s); {
		r, width := utf8.DecodeRuneInString(s[end:])
		r = unicode.ToLower(r)
		plain, accented := accents[r]
		switch {
		case accented:
			b.WriteString(plain)
		case 'a' <= r && r <= 'z':
			b.WriteRune(r)
		case end == at || !unicode.Is(unicode.Mn, r): // é may be e with an accent
			return b.String(), end
		}
		end += width
	}
	return b.String(), end
}

// accents are the letters of French, German and Spanish that English does not have.
var accents = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ä': "a", 'ç': "c", 'é': "e", 'è': "e", 'ê': "e", 'ë': "e", 'í': "i", 'î': "i", 'ï': "i",
	'ñ': "n", 'ó': "o", 'ô': "o", 'ö': "o", 'ß': "ss", 'ẞ': "ss", 'ù': "u", 'ú': "u", 'û': "u", 'ü': "u",
}

// legendWords are the words of legends, in lower case and without accents, with the English
// word that means the same there.
var legendWords = map[Language]map[string]string{
	French: meanings(
		"e east", "est east", "w west", "o west", "ouest west",
		"declinaison variation", "decl variation", "variation variation", "var variation", "magnetique magnetic", "magn magnetic", "compas compass",
		"la of", "le of", "du of", "de of", "en in", "pour for", "annee year", "epoque epoch",
		"croissant increasing", "croissante increasing", "croissance increase", "augmente increasing", "augmentant increasing", "augmentation increase",
		"decroissant decreasing", "decroissante decreasing", "decroissance decrease", "diminue decreasing", "diminuant decreasing", "diminution decrease",
		"annuel annual", "annuelle annual", "annuellement annually", "an year", "par per", "chaque each", "vers by", "environ about", "env about",
		"changement change", "et and",
		"nul nil", "nulle nil", "aucun no", "aucune no", "sans no",
		"degre degree", "degres degrees", "minute minute", "minutes minutes", "min min", "seconde sec", "secondes seconds", "sec sec",
	),
	German: meanings(
		"e east", "o east", "ost east", "osten east", "ostlich east", "oestlich east", "w west", "west west", "westen west", "westlich west",
		"missweisung variation", "mw variation", "deklination variation", "dekl variation", "variation variation", "var variation",
		"magnetische magnetic", "magn magnetic", "kompass compass",
		"die of", "der of", "des of", "in in", "im in", "fur for", "fuer for", "jahr year", "jahre year", "jahres year", "epoche epoch",
		"zunehmend increasing", "zunahme increase", "zun increase", "abnehmend decreasing", "abnahme decrease", "abn decrease",
		"jahrlich annually", "jahrliche annual", "jaehrlich annually", "jaehrliche annual", "jahrl annual", "pro per", "je per", "nach by", "um by",
		"etwa about", "ca about", "ungefahr about", "ungefaehr about", "anderung change", "aenderung change", "und and",
		"keine no", "ohne no", "null zero",
		"grad degrees", "minute minute", "minuten minutes", "min min", "sekunde sec", "sekunden seconds", "sek sec",
	),
	Spanish: meanings(
		"e east", "este east", "w west", "o west", "oeste west",
		"declinacion variation", "decl variation", "variacion variation", "var variation", "magnetica magnetic", "magn magnetic", "compas compass",
		"la of", "el of", "del of", "de of", "en in", "para for", "ano year", "epoca epoch",
		"creciente increasing", "crece increasing", "aumenta increasing", "aumentando increasing", "aumento increase", "incremento increase",
		"decreciente decreasing", "decrece decreasing", "disminuye decreasing", "disminuyendo decreasing", "disminucion decrease", "decremento decrease",
		"anual annual", "anualmente annually", "al per", "por per", "cada each", "hacia by",
		"aproximadamente about", "aprox about", "unos about", "cambio change", "y and",
		"nulo nil", "nula nil", "sin no", "ninguna no", "cero zero",
		"grado degree", "grados degrees", "minuto minute", "minutos minutes", "min min", "segundo sec", "segundos seconds", "seg sec",
	),
}

// meanings returns the map of pairs of a word and its English meaning.
func meanings(pairs ...string) map[string]string {
	m := make(map[string]string, len(pairs))
	for _, p := range pairs {
		word, meaning, _ := strings.Cut(p, " ")
		m[word] = meaning
	}
	return m
}
