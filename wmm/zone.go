package wmm

// A Zone says whether a compass can be trusted, from the horizontal intensity.
type Zone string

// The zones of the World Magnetic Model (technical report for 2020-2025).
const (
	ClearZone    Zone = "clear"    // 6,000 nT and over
	CautionZone  Zone = "caution"  // from 2,000 to under 6,000 nT: the compass may be sluggish and wrong
	BlackoutZone Zone = "blackout" // under 2,000 nT: do not rely on the compass
)

// Zone returns the zone of the field. It is BlackoutZone if the field is NaN.
func (f Field) Zone() Zone {
	switch h := f.H(); {
	case !(h >= 2000):
		return BlackoutZone
	case h < 6000:
		return CautionZone
	}
	return ClearZone
}
