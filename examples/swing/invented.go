package main

// inventedSwing is an invented record, and the flags that belong to it.
type inventedSwing struct {
	file   string
	record *[]byte
	flags  map[string]string
}

// inventedSwings are the invented records by method. By another method the program needs a
// record of your own.
var inventedSwings = map[string]inventedSwing{
	"transit": {"swing.csv", &invented, map[string]string{"direction": "351°48′T", "variation": "5°08′W ±0°15′", "position": "46°44.0′N 019°00.3′W"}},
	"shore":   {"shore.csv", &inventedShore, map[string]string{"position": "46°46.5′N 019°00.7′W", "shore-uncertainty": "0.3°"}},
	"second":  {"second.csv", &inventedSecond, map[string]string{"position": "47°04.0′N 019°04.0′W"}},
}

// invent fills in what belongs to the invented swing, if that is worked, where
// nothing else is given.
func (o *options) invent(isInvented bool) {
	if o.path != "" || !isInvented {
		return
	}
	of := inventedSwings[o.method].flags
	for to, text := range map[*string]string{
		&o.direction: of["direction"], &o.variation: of["variation"], &o.position: of["position"], &o.shore: of["shore-uncertainty"],
		&o.date: "2026-05-09", &o.details.Vessel: "Quillon (invented)", &o.details.Compass: "steering compass",
		&o.induced: o.ifLesson("0.8°E"), &o.heeling: o.ifLesson("0.2"),
		&o.correct:         o.ifLesson("bar-aft 0.8°, abeam 0.5°, red-up 0.2°, red-forward 2.5°, red-port 1.5°"),
		&o.details.Remarks: "Vessel, place and figures are invented.",
	} {
		if *to == "" {
			*to = text
		}
	}
}
