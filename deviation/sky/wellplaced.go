package sky

import (
	"time"

	"lubberline.example/angle"
)

// The altitudes between which a body is well placed for a check of the compass are common practice.
// The lower one avoids haze. At the upper one a tilt of 1° is an error of 0.8°. Stars are seen
// while the Sun is below the altitude of the end of civil twilight.
const (
	wellLow  = 5 * angle.Degree
	wellHigh = 40 * angle.Degree
	darkness = -6 * angle.Degree
)

// WellPlaced returns the bodies that are well placed for a check of the compass from a position at
// an instant. These are the bodies at an altitude of 5° to 40°. By day the result is the Sun or
// empty. While the Sun is more than 6° below the horizon, the result is the stars of [StarNames].
// Around sunrise and sunset the result is empty: use the Sun's amplitude.
//
// The first is the brightest. The bearing of each next body is farthest from the bearings of all
// before it. So the first few are spread round the horizon. The errors are those of [Sun].
func WellPlaced(p angle.Position, t time.Time) ([]Sight, error) {
	sun, err := Sun(t)
	if err != nil {
		return nil, err
	}
	sight := sun.From(p)
	if standsWell(sight) {
		return []Sight{sight}, nil
	}
	if sight.Altitude >= darkness {
		return nil, nil
	}
	f := newFrame(sun.Time)
	var well []Sight
	brightest, magnitude := 0, 0.0
	for i := range stars() {
		s := &stars()[i]
		body := f.of(s)
		sight := body.From(p)
		if !standsWell(sight) {
			continue
		}
		if len(well) == 0 || s.magnitude < magnitude {
			brightest, magnitude = len(well), s.magnitude
		}
		well = append(well, sight)
	}
	spread(well, brightest)
	return well, nil
}

// standsWell reports whether a body is neither too low nor too high.
func standsWell(s Sight) bool { return s.Altitude >= wellLow && s.Altitude <= wellHigh }

// spread sorts sights so that one is the first, and each next one bears farthest from all before.
func spread(sights []Sight, first int) {
	if len(sights) == 0 {
		return
	}
	sights[0], sights[first] = sights[first], sights[0]
	apart := make([]angle.Angle, len(sights)) // from the nearest before
	for i := range apart {
		apart[i] = angle.Turn
	}
	for n := 1; n < len(sights); n++ {
		farthest := n
		for i := n; i < len(sights); i++ {
			apart[i] = min(apart[i], sights[i].Azimuth.Sub(sights[n-1].Azimuth).Abs())
			if apart[i] > apart[farthest] {
				farthest = i
			}
		}
		sights[n], sights[farthest] = sights[farthest], sights[n]
		apart[n], apart[farthest] = apart[farthest], apart[n]
	}
}
