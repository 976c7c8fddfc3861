package conformance

// A Tier says how closely answers are compared.
type Tier string

// The tiers. A case is compared at [TierNavigation] and [TierLibrary] if it asks for a figure or a name, or
// expects a refusal. It is compared at [TierFormat] if it asks for a spelling.
const (
	// TierNavigation allows at least what the trade needs: 0.1° for a direction, 0.1 M for a
	// distance, 1′ for a position. The schema of operations states it for each quantity.
	TierNavigation Tier = "navigation"

	// TierLibrary compares figures within the tolerance of the case. It is the tier if none is
	// chosen.
	TierLibrary Tier = "library"

	// TierFormat compares spellings alone, such as 3°59.9′. The schema describes them.
	TierFormat Tier = "format"
)

// tiers are all tiers.
var tiers = []Tier{TierNavigation, TierLibrary, TierFormat}

// asks returns what a case expects at a tier. It reports false if that is nothing.
func (t Tier) asks(c Case) (map[string]Expected, bool) {
	if c.Refused != nil {
		return nil, t != TierFormat
	}
	asked := map[string]Expected{}
	for key, want := range c.Expect {
		q, _ := quantityOf(c.Operation, key)
		if q.Spelling != (t == TierFormat) {
			continue
		}
		if t == TierNavigation {
			want.Within = max(want.Within, q.Navigation)
		}
		asked[key] = want
	}
	return asked, len(asked) > 0
}
