package fix

import "fmt"

// names are the names of lines, told apart where several lines have one name.
type names struct {
	lines []Line
	kinds map[string]map[Kind]int // how many lines have a name, of each kind
	times map[nameAt]int          // and of each time
}

// nameAt is a line's name with its kind and its time as it is written.
type nameAt struct {
	name, clock string
	kind        Kind
}

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

func (l *Line) at() nameAt { return nameAt{l.name, l.clock(), l.kind} }

// clock is the time of a line, or empty.
func (l *Line) clock() string {
	if l.time.IsZero() {
		return ""
	}
	return l.time.UTC().Format("15:04 UTC")
}

// of is a line's name; with its kind where lines of other kinds have the name too.
func (n names) of(i int) string {
	l := &n.lines[i]
	if len(n.kinds[l.name]) > 1 {
		return n.titled(i)
	}
	return l.name + n.apart(i)
}

// titled is what a line is and what it is of.
func (n names) titled(i int) string { return n.lines[i].titled() + n.apart(i) }

// apart tells a line from those of its kind and name, by its time or by its number.
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
