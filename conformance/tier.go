package conformance

// A Tier says how closely answers are compared.
type Tier string

// The tiers. A case is compared at [Navigation] and [Library] if it asks for a figure or a name, or
// expects a refusal. It is compared at [Format] if it asks for a spelling.
const (
	// Navigation allows at least what the trade needs: 0.1° for a direction, 0.1 M for a
	// distance, 1′ for a position. The schema of operations states it for each quantity.
	Navigation Tier = "navigation"

	// Library compares figures within the tolerance of the case. It is the tier if none is
	// chosen.
	Library Tier = "library"

	// Format compares spellings alone, such as 3°59.9′. The schema describes them.
	Format Tier = "format"
)

// tiers are all tiers.
var tiers = []Tier{Navigation, Library, Format}

// asks returns what a case expects at a tier. It reports false if that is nothing.
func (t Tier) asks(c Case) (map[string]Expected, bool) {
	if c.Refused != nil {
		return nil, t != Format
	}
	asked := map[string]Expected{}
	for key, want := range c.Expect {
		q, _ := quantityOf(c.Operation, key)
		if q.Spelling != (t == Format) {
			continue
		}
		if t == Navigation {
			want.Within = max(want.Within, q.Navigation)
		}
		asked[key] = want
	}
	return asked, len(asked) > 0
}
