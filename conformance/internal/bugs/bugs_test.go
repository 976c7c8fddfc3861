package bugs

import (
	"fmt"
	"testing"

	"lubberline.example/conformance"
)

func TestX(t *testing.T) {
	for _, tier := range []conformance.Tier{conformance.Library, conformance.Navigation} {
		byOp := map[string][]Bug{}
		most := 0
		for _, b := range All() {
			byOp[b.Operation] = append(byOp[b.Operation], b)
			most = max(most, len(byOp[b.Operation]))
		}
		missed := 0
		for i := range most {
			s := conformance.Subject{Name: "bugs", Operations: map[string]conformance.Operation{}}
			ids := map[string]string{}
			for op, all := range byOp {
				if i < len(all) {
					s.Operations[op] = all[i].Subject().Operations[op]
					ids[op] = all[i].ID
				}
			}
			r, err := conformance.Hold(s, "bugs", "", conformance.Options{Tier: tier}, nil)
			if err != nil {
				t.Fatal(err)
			}
			caught := map[string]bool{}; fails,tot:=map[string]int{},map[string]int{}
			for _, x := range r.Results {
				tot[x.Case.Operation]++; if !x.Status.Good() { fails[x.Case.Operation]++;
					caught[x.Case.Operation] = true
				}
				if x.Status == conformance.Broke {
					fmt.Println("BROKE", ids[x.Case.Operation], x.Case.ID, x.Problems)
				}
			}
			for op, id := range ids { if tier==conformance.Library {fmt.Println("COUNT",id,fails[op],tot[op])}
				if !caught[op] {
					missed++
					fmt.Println("MISSED", tier, id)
				}
			}
		}
		fmt.Println(tier, len(All()), missed)
	}
}
