package bugs

import (
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
	"lubberline.example/conformance/slip"
)

// The bar: how many of 100 bugs the suite finds at least.
const bar = 97

// TestSuiteFindsTheBugs runs each bug against the cases of its operation. A bug is found if a
// case fails that the correct subject passes. The bugs that are not found are those listed, with
// the reason, and no others: a bug that is found must leave the list.
func TestSuiteFindsTheBugs(t *testing.T) {
	bank := All()
	left := missed(t, bank, conformance.TierLibrary)
	left = missed(t, left, conformance.TierFormat)
	report(t, "the whole suite", left, notFound)
	trade := missed(t, bank, conformance.TierNavigation)
	listed := maps.Clone(notFoundAtNavigation)
	maps.Copy(listed, notFound)
	report(t, "the tier navigation", trade, listed)
	share := func(n int) float64 { return 100 * float64(len(bank)-n) / float64(len(bank)) }
	t.Logf("of %d bugs the whole suite finds %d, %.1f %%, and the tier navigation %d, %.1f %%",
		len(bank), len(bank)-len(left), share(len(left)), len(bank)-len(trade), share(len(trade)))
	if share(len(left)) < bar {
		t.Errorf("the whole suite finds %.1f %%, less than %d %%", share(len(left)), bar)
	}
}

// report compares the bugs that are not found with those listed.
func report(t *testing.T, where string, left []Bug, listed map[string]string) {
	t.Helper()
	open := map[string]bool{}
	for _, b := range left {
		open[b.ID] = true
		if listed[b.ID] == "" {
			t.Errorf("%s does not find %s: %s", where, b.ID, b.Says)
		}
	}
	for id := range listed {
		if !open[id] {
			t.Errorf("%s finds %s: remove it from the list", where, id)
		}
	}
}

// missed returns the bugs that the cases of a tier do not find. It runs many bugs together, one
// in each operation.
func missed(t *testing.T, bank []Bug, tier conformance.Tier) (left []Bug) {
	t.Helper()
	correct := lubberline.Subject().Operations
	passes := map[string]bool{}
	for _, r := range hold(t, correct, tier) {
		passes[r.Case.ID] = r.Status == conformance.Pass
	}
	waiting := slices.Clone(bank)
	for len(waiting) > 0 {
		round, later := map[string]Bug{}, []Bug{}
		operations := map[string]conformance.Operation{}
		for _, b := range waiting {
			if _, taken := round[b.Operation]; taken {
				later = append(later, b)
				continue
			}
			round[b.Operation], operations[b.Operation] = b, b.apply(correct)
		}
		found := map[string]bool{}
		for _, r := range hold(t, operations, tier) {
			found[r.Case.Operation] = found[r.Case.Operation] || passes[r.Case.ID] && !r.Status.Good()
		}
		for _, b := range waiting {
			if round[b.Operation].ID == b.ID && !found[b.Operation] {
				left = append(left, b)
			}
		}
		waiting = later
	}
	return left
}

// hold runs the cases of a tier on some operations.
func hold(t *testing.T, operations map[string]conformance.Operation, tier conformance.Tier) []conformance.Result {
	t.Helper()
	r, err := conformance.Hold(conformance.Subject{Name: "bugs", Operations: operations}, "bugs", "", conformance.Options{Tier: tier}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r.Results
}

// TestBankIsSound checks that ids are unique and well formed, that each bug is described in a
// sentence, and that each operation has bugs.
func TestBankIsSound(t *testing.T) {
	id := regexp.MustCompile(`^[a-z]+\.[A-Za-z]+/[a-z0-9.-]+$`)
	seen, operations := map[string]bool{}, map[string]int{}
	for _, b := range All() {
		if seen[b.ID] || !id.MatchString(b.ID) || !strings.HasPrefix(b.ID, b.Operation+"/") {
			t.Errorf("%q is not an id, or is there twice", b.ID)
		}
		seen[b.ID] = true
		if b.Slip == "" && !strings.HasSuffix(b.Says, ".") || b.Says == "" {
			t.Errorf("%s: %q is not a sentence", b.ID, b.Says)
		}
		if words := len(strings.Fields(b.Says)); words > 25 {
			t.Errorf("%s: %d words: %s", b.ID, words, b.Says)
		}
		operations[b.Operation]++
	}
	for operation := range lubberline.Subject().Operations {
		if operations[operation] < 5 {
			t.Errorf("%s has %d bugs", operation, operations[operation])
		}
	}
	for name := range operations {
		if lubberline.Subject().Operations[name] == nil {
			t.Errorf("there is no operation %s", name)
		}
	}
}

// TestEverySlipIsABug checks that the slips of learners are in the bank, each as a bug that the
// suite finds. The slips without a bug are listed, with the reason.
func TestEverySlipIsABug(t *testing.T) {
	bugs := map[slip.Kind]int{}
	for _, b := range All() {
		if b.Slip != "" && notFound[b.ID] == "" {
			bugs[b.Slip]++
		}
	}
	for _, kind := range slip.Kinds() {
		switch why := notAsked[kind]; {
		case bugs[kind] == 0 && why == "":
			t.Errorf("no bug is the slip %s", kind)
		case bugs[kind] > 0 && why != "":
			t.Errorf("%s is a bug, and listed as none", kind)
		}
		delete(bugs, kind)
	}
	for kind := range bugs {
		t.Errorf("%q is no slip", kind)
	}
}

// A bug leaves the other operations as they are: it does not offer them.
func TestBugIsInOneOperation(t *testing.T) {
	for _, b := range All()[:10] {
		if s := b.Subject(); len(s.Operations) != 1 || !s.Offers(b.Operation) || s.Name != b.ID {
			t.Errorf("%s: %v", b.ID, s)
		}
	}
}

// TestReadmeCountsTheBugs holds the counts in the README of the suite to the bank.
func TestReadmeCountsTheBugs(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	n, spelled := len(All()), 0
	for _, why := range notFoundAtNavigation {
		if why == spelling {
			spelled++
		}
	}
	text := strings.Join(strings.Fields(string(readme)), " ")
	for _, want := range []string{
		fmt.Sprintf("a bank of %s mistakes", thousands(n)),
		fmt.Sprintf("The suite finds %s.", thousands(n-len(notFound))),
		fmt.Sprintf("alone finds %s:", thousands(n-len(notFound)-len(notFoundAtNavigation))),
		fmt.Sprintf("%d of the others are smaller than its tolerances, and %d are spellings", len(notFoundAtNavigation)-spelled, spelled),
	} {
		if !strings.Contains(text, want) {
			t.Errorf("README.md must say %q", want)
		}
	}
}

// thousands writes a number with a comma.
func thousands(n int) string {
	if n < 1000 {
		return strconv.Itoa(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}
