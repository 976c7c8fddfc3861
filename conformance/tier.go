package conformance

// A Tier says how closely answers are compared.
type Tier string

// The tiers.
const (
	// Library compares every answer within the tolerance of its case, and every text. It
	// is the tier if none is chosen.
	Library Tier = "library"

	// Navigation allows at least what the trade needs: 0.1° for a direction, 0.1 M for a
	// distance, 1′ for a position. The schema of operations states it for each quantity.
	// Spellings are not compared, and a case that asks for nothing else is left out.
	Navigation Tier = "navigation"
)

// asks returns what a case expects at a tier. It reports false if that is nothing.
func (t Tier) asks(c Case) (map[string]Expected, bool) {
	if t != Navigation || c.Refused != nil {
		return c.Expect, true
	}
	asked := map[string]Expected{}
	for key, want := range c.Expect {
		q, known := quantityOf(c.Operation, key)
		if known && q.Format {
			continue
		}
		want.Within = max(want.Within, q.Navigation)
		asked[key] = want
	}
	return asked, len(asked) > 0
}
