package adjust

import (
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// A Corrector is one of the correctors of a binnacle.
type Corrector string

// The correctors.
const (
	ForeAndAftMagnets  Corrector = "fore-and-aft-magnets" // for B from permanent magnetism
	AthwartshipMagnets Corrector = "athwartship-magnets"  // for C
	Spheres            Corrector = "spheres"              // of soft iron, for D; slewed, for E too
	FlindersBar        Corrector = "flinders-bar"         // of soft iron, upright, for B from vertical soft iron
	HeelingMagnet      Corrector = "heeling-magnet"       // upright below the compass, for the heeling error
)

// A Way is how a corrector stands. The red end of a magnet is the one that seeks north.
type Way string

// The ways in which correctors stand. Each corrector has two.
const (
	RedForward   Way = "red-forward"   // fore-and-aft magnets: adds to B westerly deviation
	RedAft       Way = "red-aft"       // fore-and-aft magnets: adds to B easterly deviation
	RedStarboard Way = "red-starboard" // athwartship magnets: adds to C westerly deviation
	RedPort      Way = "red-port"      // athwartship magnets: adds to C easterly deviation
	Abeam        Way = "abeam"         // spheres to port and starboard: adds to D westerly deviation
	AheadAstern  Way = "ahead-astern"  // spheres ahead and astern: adds to D easterly deviation
	BarForward   Way = "bar-forward"   // Flinders bar ahead of the compass: adds easterly B where the dip is down
	BarAft       Way = "bar-aft"       // Flinders bar aft of the compass: adds westerly B where the dip is down
	RedUp        Way = "red-up"        // heeling magnet: draws the needle's north end to the low side
	RedDown      Way = "red-down"      // heeling magnet: draws the needle's north end to the high side
)

// ways are the two ways of each corrector. The first removes a positive coefficient; for the
// Flinders bar, where the dip is down.
var ways = map[Corrector][2]Way{
	ForeAndAftMagnets:  {RedForward, RedAft},
	AthwartshipMagnets: {RedStarboard, RedPort},
	Spheres:            {Abeam, AheadAstern},
	FlindersBar:        {BarAft, BarForward},
	HeelingMagnet:      {RedUp, RedDown},
}

// named names a corrector and its way in words.
func named(way Way) string {
	return map[Way]string{
		RedForward:   "fore-and-aft magnets, red ends forward",
		RedAft:       "fore-and-aft magnets, red ends aft",
		RedStarboard: "athwartship magnets, red ends to starboard",
		RedPort:      "athwartship magnets, red ends to port",
		Abeam:        "spheres to port and starboard",
		AheadAstern:  "spheres ahead and astern",
		BarForward:   "Flinders bar forward of the compass",
		BarAft:       "Flinders bar aft of the compass",
		RedUp:        "heeling magnet, red end up",
		RedDown:      "heeling magnet, red end down",
	}[way]
}

// because adds to a step why a corrector that stands a way acts as it does.
func because(step working.Step, way Way) working.Step {
	switch way {
	case RedForward:
		return step.Because("corrector-red-forward", "the magnets lie below the card: red ends forward drive the needle's north end aft")
	case RedAft:
		return step.Because("corrector-red-aft", "the magnets lie below the card: red ends aft drive the needle's north end forward")
	case RedStarboard:
		return step.Because("corrector-red-starboard", "the magnets lie below the card: red ends to starboard drive the needle's north end to port")
	case RedPort:
		return step.Because("corrector-red-port", "the magnets lie below the card: red ends to port drive the needle's north end to starboard")
	case Abeam:
		return step.Because("corrector-spheres-abeam", "spheres abeam strengthen the earth's field athwartships and weaken it fore and aft: the needle is drawn toward the line through them")
	case AheadAstern:
		return step.Because("corrector-spheres-ahead-astern", "spheres ahead and astern strengthen the earth's field fore and aft and weaken it athwartships: the needle is drawn toward the keel line")
	case BarForward, BarAft:
		return step.Because("corrector-bar-upper-end", "the upper end of the bar is near the card: where the dip is down it is blue and draws the needle's north end; where the dip is up it is red and drives it away").
			Because("corrector-bar-follows", "the bar and the vessel's vertical iron change together with the latitude, so that the correction holds; magnets do not change")
	case RedUp:
		return step.Because("corrector-red-up", "red end up drives the needle's north end toward the masthead, which leans to the low side in a heel").
			Because("corrector-heeling-latitude", "the part from soft iron changes with the latitude: the magnet is set again there")
	case RedDown:
		return step.Because("corrector-red-down", "red end down draws the needle's north end toward the keel, which swings to the high side in a heel").
			Because("corrector-heeling-latitude", "the part from soft iron changes with the latitude: the magnet is set again there")
	}
	return step
}

// seen adds to a step on which headings a coefficient shows.
func seen(step working.Step, letter string, east bool) working.Step {
	switch {
	case letter == "B" && east:
		return step.Because("corrector-seen-b-east", "easterly on east, westerly on west: the needle's north end is drawn forward")
	case letter == "B":
		return step.Because("corrector-seen-b-west", "westerly on east, easterly on west: the needle's north end is drawn aft")
	case letter == "C" && east:
		return step.Because("corrector-seen-c-east", "easterly on north, westerly on south: the needle's north end is drawn to starboard")
	case letter == "C":
		return step.Because("corrector-seen-c-west", "westerly on north, easterly on south: the needle's north end is drawn to port")
	case letter == "D" && east:
		return step.Because("corrector-seen-d-east", "easterly on northeast and southwest, westerly on southeast and northwest")
	case letter == "D":
		return step.Because("corrector-seen-d-west", "westerly on northeast and southwest, easterly on southeast and northwest")
	case letter == "E" && east:
		return step.Because("corrector-seen-e-east", "easterly on north and south, westerly on east and west")
	case letter == "E":
		return step.Because("corrector-seen-e-west", "westerly on north and south, easterly on east and west")
	case east:
		return step.Because("corrector-seen-j-high", "heeled, the needle's north end is drawn to the high side, most on north and south")
	}
	return step.Because("corrector-seen-j-low", "heeled, the needle's north end is drawn to the low side, most on north and south")
}

// Rules returns which way each corrector stands for either sign of a coefficient, and why. There is
// a step for each; the key of the step names the coefficient and its sign: "B east" is a positive
// B. The value is the corrector and its way.
//
// The ways follow from two facts. The red end of a magnet drives away the north end of the needle,
// and soft iron takes the magnetism of the field that it is in. Tests hold them to the fields of
// dipoles. The last steps are the adjuster's order, from memory.
func Rules() working.Sheet {
	s := working.Sheet{Title: "Correctors, and which way they stand", Caution: deviation.AdjusterCaution}
	for _, rule := range []struct {
		key, what, letter string
		corrector         Corrector
	}{
		{"B", "B", "B", ForeAndAftMagnets}, {"C", "C", "C", AthwartshipMagnets}, {"D", "D", "D", Spheres}, {"J", "Heeling", "J", HeelingMagnet},
	} {
		for i, way := range ways[rule.corrector] {
			what, key := rule.what+" +", rule.key+" east"
			if i == 1 {
				what, key = rule.what+" −", rule.key+" west"
			}
			s.Steps = append(s.Steps, because(seen(working.Step{Key: key, What: what, Value: named(way)}, rule.letter, i == 0), way))
		}
	}
	slewed := []working.Step{
		seen(working.Step{Key: "E east", What: "E +", Value: "spheres abeam, slewed clockwise"}, "E", true).
			Because("corrector-slewed-clockwise", "the starboard sphere goes aft and the port sphere forward, by half of the angle whose tangent is E/D"),
		seen(working.Step{Key: "E west", What: "E −", Value: "spheres abeam, slewed counterclockwise"}, "E", false).
			Because("corrector-slewed-counterclockwise", "the starboard sphere goes forward and the port sphere aft, by half of the angle whose tangent is E/D"),
	}
	bar := []working.Step{
		because(working.Step{Key: "induced B east", What: "Induced B +", Value: "bar aft where the dip is down, forward where it is up"}, BarAft),
		because(working.Step{Key: "induced B west", What: "Induced B −", Value: "bar forward where the dip is down, aft where it is up"}, BarForward),
	}
	s.Steps = append(append(append(s.Steps[:6:6], slewed...), bar...), s.Steps[6:]...)
	s.Steps = append(s.Steps, order()...)
	return s
}

// order returns the adjuster's order as steps.
func order() working.Steps {
	return working.Steps{
		working.Step{Key: "order 1", What: "First", Value: "look for what is not magnetism"}.
			Because("order-look-first", "lubber line, gear and iron near the compass, electric current; A has no corrector"),
		working.Step{Key: "order 2", What: "At the berth", Value: "Flinders bar, spheres, heeling magnet"}.
			Because("order-soft-iron-first", "by the last record: they act on each other and on the needle, so they come before the horizontal magnets"),
		working.Step{Key: "order 3", What: "On east or west", Value: "fore-and-aft magnets: remove B"}.
			Because("order-b", "on the opposite heading remove half of what is left: A and E remain"),
		working.Step{Key: "order 4", What: "On north or south", Value: "athwartship magnets: remove C"}.
			Because("order-c", "on the opposite heading remove half of what is left"),
		working.Step{Key: "order 5", What: "On an intercardinal heading", Value: "spheres: remove D"}.
			Because("order-d", "on the next intercardinal heading remove half of what is left"),
		working.Step{Key: "order 6", What: "Last", Value: "swing on eight headings or more"}.
			Because("order-swing", "the residual deviations make the card; the order is cited from memory"),
	}
}
