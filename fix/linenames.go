package fix

import (
	"fmt"

	"lubberline.example/angle/working"
)

// names holds the names of lines. Lines of one name get a kind, a time or a number as well.
type names struct {
	lines []Line
	kinds map[string]map[Kind]int // how many lines have this name and kind
	times map[nameAt]int          // how many lines have this name, kind and time
}

// A nameAt is the name of a line with its kind and its time as text.
type nameAt struct {
	name, clock string
	kind        Kind
}

// namesOf returns the names of lines.
func namesOf(lines []Line) names {
	n := names{lines, map[string]map[Kind]int{}, map[nameAt]int{}}
	for i := range lines {
		l := &lines[i]
		if n.kinds[l.name] == nil {
			n.kinds[l.name] = map[Kind]int{}
		}
		n.kinds[l.name][l.kind]++
		n.times[l.at()]++
	}
	return n
}

// at returns the name of a line with its kind and time.
func (l *Line) at() nameAt { return nameAt{l.name, l.clock(), l.kind} }

// clock returns the time of a line as text. If it is unknown, the text is empty.
func (l *Line) clock() string {
	if l.time.IsZero() {
		return ""
	}
	return l.time.UTC().Format("15:04 UTC")
}

// of returns the name of a line. If lines of other kinds have the same name, it adds the kind.
func (n names) of(i int) string {
	l := &n.lines[i]
	if len(n.kinds[l.name]) > 1 {
		return n.titled(i)
	}
	return l.name + n.apart(i)
}

// ofCut adds the names of the two lines of a cut to a step. With two marks in a name it says the
// kinds of the lines too, so that it is clear which marks belong together.
func (n names) ofCut(step working.Step, a, b int) working.Step {
	if len(n.lines[a].marks) > 1 || len(n.lines[b].marks) > 1 {
		return step.Because("cut-of-lines-of-two-marks", "of %s; and of %s", n.titled(a), n.titled(b))
	}
	return step.Because("cut-of-lines", "of %s and %s", n.of(a), n.of(b))
}

// titled returns the kind and the name of a line.
func (n names) titled(i int) string { return n.lines[i].titled() + n.apart(i) }

// apart returns the time or the number of a line, if others have the same kind and name.
func (n names) apart(i int) string {
	l := &n.lines[i]
	switch clock := l.clock(); {
	case n.kinds[l.name][l.kind] < 2:
		return ""
	case clock != "" && n.times[l.at()] < 2:
		return " at " + clock
	}
	return fmt.Sprintf(", line %d", i+1)
}
