package variation_test

import (
	"encoding/json"
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// A chart table keeps its roses in a store of its own, and reads them back: here JSON in a
// map, by the chart's name. The chart that is read back answers the same.
func Example_ownStore() {
	chart, err := variation.NewChart("Orlesk approaches", variation.ChartRose{
		Name:     "Orlesk Bay",
		Position: angle.MustParsePosition("47°06′N 019°02′W"),
		Rose:     variation.MustParseLegend("7°20′W 2015 (12′E)"),
	})
	if err != nil {
		log.Fatal(err)
	}
	store := map[string][]byte{}
	if store[chart.Name()], err = json.Marshal(chart); err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s\n", store["Orlesk approaches"])

	var again variation.Chart
	if err := json.Unmarshal(store["Orlesk approaches"], &again); err != nil {
		log.Fatal(err)
	}
	v, err := again.VariationAt(angle.MustParsePosition("47°00′N 019°14′W"), time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(v)
	// Output:
	// {"name":"Orlesk approaches","roses":[{"name":"Orlesk Bay","position":"47°06′N 019°02′W","legend":"7°20′W 2015 (12′E)"}]}
	// 5°08′W
}
