// Package bugs is a bank of mistakes that programmers and learners make. Each is applied to
// this module as a subject of the conformance suite, to prove that the suite finds it.
//
// The core of the bank is the slips of package [slip]: there a slip is named in a learner's
// answer and makes the wrong answers of an exercise, and here it is made in each operation that
// it fits. The others are mistakes of programs: a turn not taken off, a table taken as sorted, a
// refusal left out.
//
// A bug works nothing itself. It changes the question, changes the answer, or asks another
// operation.
package bugs

import (
	"encoding/json"
	"slices"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
	"lubberline.example/conformance/slip"
)

// A Bug is one mistake in one operation.
type Bug struct {
	ID        string    // the operation, a slash and a name, such as "angle.mean/plain-mean"
	Operation string    // the operation that it is made in
	Slip      slip.Kind // the slip of a learner that it is, or ""
	Says      string    // what was done wrong, in a sentence
	work      mistake
}

// Subject returns this module with the bug in it. It offers no operation but the bug's.
func (b Bug) Subject() conformance.Subject {
	return conformance.Subject{Name: b.ID, Operations: map[string]conformance.Operation{
		b.Operation: b.apply(lubberline.Subject().Operations),
	}}
}

// apply returns the operation of the bug, with the bug in it.
func (b Bug) apply(correct map[string]conformance.Operation) conformance.Operation {
	return func(data []byte) (conformance.Answer, error) {
		var g given
		if err := json.Unmarshal(data, &g); err != nil {
			return nil, err
		}
		return b.work(asker{b.Operation, correct}, g)
	}
}

// All returns the bank, in the order of the topics.
func All() []Bug {
	return slices.Concat(
		angleBugs, directionBugs, positionBugs, legendBugs, roseBugs, chainBugs, tableBugs, coefficientBugs, swingBugs,
		checkBugs, skyBugs, fieldBugs, planeBugs, parallelBugs, followBugs, mercatorBugs, streamBugs, reckoningBugs, leewayBugs,
		lineBugs, angleFixBugs, dangerBugs,
	)
}

// on returns the bugs as bugs of an operation.
func on(operation string, bugs ...Bug) []Bug {
	for i := range bugs {
		bugs[i].Operation = operation
		bugs[i].ID = operation + "/" + bugs[i].ID
	}
	return bugs
}

// bug returns a mistake of a program. Its id lacks the operation.
func bug(name, says string, work mistake) Bug { return Bug{ID: name, Says: says, work: work} }

// slipped returns a slip of a learner, named and described by its kind.
func slipped(kind slip.Kind, work mistake) Bug {
	return Bug{ID: string(kind), Slip: kind, Says: kind.String(), work: work}
}

// slippedAs returns a slip of a learner that is made in several ways in one operation.
func slippedAs(kind slip.Kind, name, says string, work mistake) Bug {
	return Bug{ID: name, Slip: kind, Says: says, work: work}
}
