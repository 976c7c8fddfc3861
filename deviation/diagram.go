package deviation

// A Diagram is what is drawn of a compass: its curve, and the observations that
// the curve was found from.
type Diagram struct {
	Details
	Source       Source        // the curve; its uncertainty is drawn as a band where it is stated
	Observations []Observation // drawn as points; may be empty
}
