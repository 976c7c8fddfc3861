package angle

// relative reads a relative bearing. It returns the angle clockwise from the bow, negative
// to port.
func (s *scanner) relative(referenceNeeded bool) (Angle, *ParseError) {
	s.skipBlanks()
	if w := s.word(); is(w, "RIGHT", "DEAD") {
		ahead := *s
		ahead.at += len(w)
		if ahead.skipBlanks(); is(ahead.word(), "AHEAD", "ASTERN") {
			*s = ahead
		}
	}
	if a, err, ok := s.relativeWords(); ok {
		return a, err
	}
	before, sided := s.sideBefore()
	if sided {
		if err := s.stop(); err != nil { // "P. 35"
			return 0, err
		}
	}
	s.skipBlanks()
	at := s.at
	a, inPoints := s.wholePoints()
	if !inPoints {
		var err *ParseError
		if a, err = s.threeFigure("a relative bearing from 0° to 360°"); err != nil {
			return 0, err
		}
	}
	s.skipBlanks()
	afterAt := s.at
	if w := s.word(); !sided && is(w, "ON", "ABAFT", "BEFORE", "FORWARD") {
		return s.onPart(a, true, at)
	}
	s.passWord("TO")
	after, sidedAfter := s.side()
	switch {
	case sided && sidedAfter:
		return 0, s.failAt(afterAt, TwoNames, "one side")
	case sidedAfter:
		before, sided = after, true
	case s.at != afterAt:
		return 0, s.fail(MissingName, "port or starboard")
	}
	switch {
	case sided && a > Turn/2:
		return 0, s.failAt(at, OutOfRange, "0° to 180° on the side named")
	case sided:
		return onSide(before, a), nil
	case inPoints:
		return 0, s.failAt(at, UnitsOutOfOrder, "degrees first, or points on a side, such as 2 points on the port bow")
	}
	return a, s.fromBowLetter(referenceNeeded)
}

// relativeWords reads a relative bearing without a figure, such as ahead. It reports false if there
// is none.
func (s *scanner) relativeWords() (Angle, *ParseError, bool) {
	switch w := s.word(); {
	case is(w, "AHEAD"):
		s.at += len(w)
		return 0, nil, true
	case is(w, "ASTERN"):
		s.at += len(w)
		return Turn / 2, nil, true
	case is(w, "ABEAM"):
		s.at += len(w)
		s.passWord("TO")
		side, ok := s.side()
		if !ok {
			return 0, s.fail(MissingName, "port or starboard"), true
		}
		return onSide(side, Turn/4), nil, true
	case is(w, "ON", "BROAD"):
		a, err := s.onPart(0, false, s.at)
		return a, err, true
	}
	return 0, nil, false
}

// fromBowLetter reads the letter or word for a bearing from the bow.
func (s *scanner) fromBowLetter(needed bool) *ParseError {
	w := s.word()
	switch {
	case is(w, "R", "REL", "RELATIVE"):
		s.at += len(w)
	case is(w, "T", "M", "C", "TRUE", "MAGNETIC", "COMPASS"):
		return s.fail(WrongNorth, "a relative bearing, from the bow")
	case needed && s.at == len(s.input):
		return s.fail(MissingName, "the letter R for relative, or a side, after the figures")
	}
	return nil
}

// onPart reads a part of the vessel: on the port bow, abaft the starboard beam. If an
// angle was counted, onPart adds it from that part.
func (s *scanner) onPart(a Angle, counted bool, at int) (Angle, *ParseError) {
	if !counted {
		s.passWord("BROAD")
	}
	from := s.word()
	beam := !is(from, "ON")
	if beam && (!counted || !is(from, "ABAFT", "BEFORE", "FORWARD")) {
		return 0, s.fail(UnknownWord, "on the bow, the beam or the quarter")
	}
	s.passWord(from)
	if is(from, "FORWARD") {
		s.passWord("OF")
	}
	s.passWord("THE")
	side, ok := s.side()
	if !ok {
		return 0, s.fail(MissingName, "port or starboard")
	}
	s.skipBlanks()
	part := s.word()
	s.at += len(part)
	if a > Turn/4 {
		return 0, s.failAt(at, OutOfRange, "0° to 90° from the part of the vessel named")
	}
	if !counted {
		a = Turn / 8
	}
	switch {
	case is(part, "BOW") && !beam:
		return onSide(side, a), nil
	case is(part, "QUARTER") && !beam:
		return onSide(side, Turn/2-a), nil
	case is(part, "BEAM") && is(from, "ABAFT"):
		return onSide(side, Turn/4+a), nil
	case is(part, "BEAM") && beam:
		return onSide(side, Turn/4-a), nil
	case is(part, "BEAM") && !counted:
		return onSide(side, Turn/4), nil
	}
	want := "bow or quarter" // figures are not counted from the beam
	switch {
	case beam:
		want = "beam"
	case !counted:
		want = "bow, beam or quarter"
	}
	return 0, s.failAt(s.at-len(part), UnknownWord, want)
}

// onSide returns the angle clockwise from the bow of an angle on a side.
func onSide(side Side, a Angle) Angle {
	if side == Port {
		return -a
	}
	return a
}

// inWords reads a number from one to eight as a word.
func (s *scanner) inWords() (decimal, *ParseError) {
	w := s.word()
	for i, name := range [...]string{"ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX", "SEVEN", "EIGHT"} {
		if is(w, name) {
			s.at += len(w)
			return decimal{at: s.at, whole: int64(i + 1)}, nil
		}
	}
	return decimal{}, s.fail(NoNumber, "a figure")
}

// wholePoints reads a number of points with the word: 2 points, 1½ points, four points. If
// there is none at the scanner, it does not move.
func (s *scanner) wholePoints() (Angle, bool) {
	ahead := *s
	d, err := ahead.number("a figure")
	if err == nil {
		err = ahead.pointFraction(&d)
	} else if d, err = ahead.inWords(); err == nil {
		ahead.skipBlanks()
	}
	if err != nil {
		return 0, false
	}
	ahead.skipBlanks()
	w := ahead.word()
	a, ok := d.times(Point)
	if !ok || !is(w, "POINT", "POINTS", "PT", "PTS") {
		return 0, false
	}
	ahead.at += len(w)
	*s = ahead
	return a, true
}

// passWord skips a word at the scanner, and the spaces after it.
func (s *scanner) passWord(word string) {
	s.skipBlanks()
	if w := s.word(); is(w, word) || w == word {
		s.at += len(w)
		s.skipBlanks()
	}
}

// sideBefore reads the name of a side before figures. Here R and G may mean red and
// green; after figures R means relative.
func (s *scanner) sideBefore() (Side, bool) {
	switch w := s.word(); {
	case is(w, "R"):
		s.at += len(w)
		return Port, true
	case is(w, "G"):
		s.at += len(w)
		return Starboard, true
	}
	return s.side()
}

// side reads the name of a side.
func (s *scanner) side() (Side, bool) {
	w := s.word()
	switch {
	case is(w, "PORT", "P", "RED"):
		s.at += len(w)
		return Port, true
	case is(w, "STARBOARD", "STBD", "S", "GREEN"):
		s.at += len(w)
		return Starboard, true
	}
	return Starboard, false
}
