package swing

import (
	"errors"
	"fmt"
	"slices"

	"lubberline.example/angle/working"
)

// A BearingCompass says by which compass the bearings of a swing were taken. If empty, it is not
// stated.
type BearingCompass string

// The compasses of a bearing.
const (
	// SwungCompass is the compass that is swung. It also gives the headings.
	SwungCompass BearingCompass = "swung"

	// AnotherCompass is any other aboard, such as a hand-bearing compass. It has a deviation
	// of its own, and [Reduce] refuses its bearings.
	AnotherCompass BearingCompass = "another"
)

// check refuses bearings by another compass, and words that are unknown.
func (b BearingCompass) check() error {
	switch b {
	case "", SwungCompass:
		return nil
	case AnotherCompass:
		return errors.New("the bearing is by another compass aboard: it holds that compass's deviation, not that of the compass that is swung. " +
			"Give the heading by that compass (other) with its deviation, as a second compass, or use it ashore, clear of iron, and give its bearings of the vessel (shore)")
	}
	return fmt.Errorf("the bearing is by %.60q: give %s or %s", string(b), SwungCompass, AnotherCompass)
}

// checkBearingCompass refuses readings with bearings by another compass, and warns once if it is
// not stated by which compass they are.
func checkBearingCompass(readings []reading, columns []string) ([]working.Warning, error) {
	if !slices.Contains(columns, "bearing") {
		return nil, nil
	}
	stated := true
	for i, r := range readings {
		if err := r.BearingBy.check(); err != nil {
			return nil, readingError(i, r.Heading, err)
		}
		stated = stated && (r.BearingBy != "" || r.fromBow)
	}
	if stated {
		return nil, nil
	}
	return []working.Warning{working.Warn(BearingCompassNotStated, "bearing-compass-not-stated", "the bearings are taken as by the compass that is swung; state it in the column bearing_by of the record (swung or another). Bearings by another compass aboard make a wrong card")}, nil
}
