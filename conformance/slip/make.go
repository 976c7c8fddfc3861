package slip

import (
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
)

// made returns a problem that is worked by a function, with the steps of its right working. It
// returns the error of that working.
func made(p Problem, steps func() working.Steps, work func(*calculation) (float64, error)) (Problem, error) {
	if _, err := work(&calculation{}); err != nil {
		return Problem{}, err
	}
	figure := orNaN(work)
	p.work = func(c *calculation) float64 {
		if c.steps != nil {
			c.step(steps()...)
		}
		return figure(c)
	}
	return p, nil
}

// upTo returns the steps up to the one with a key, or all.
func upTo(steps working.Steps, key string) working.Steps {
	if at := slices.IndexFunc(steps, func(s working.Step) bool { return s.Key == key }); at >= 0 {
		return steps[:at+1]
	}
	return steps
}

// aboard is the steering compass of a problem, the variation and the vessel's heading.
type aboard struct {
	with    course.With
	heading course.Heading // right
	head    angle.Compass
	v       given
}

// onHeading returns the compass of a problem on a heading.
func onHeading(head angle.Compass, with course.With) (aboard, error) {
	heading, err := course.FromCompass(head, with)
	if err != nil {
		return aboard{}, err
	}
	v, err := variationOf(with)
	return aboard{with, heading, head, v}, err
}

// says returns the words about the variation and the deviation, for a question.
func (a aboard) says() string { return capital(a.v.says) + toldOf(a.with.Deviation) }

// toTrue returns what converts directions by compass to true, with the slips of the conversion. The
// same slip is made in all of them. Each of them can have the deviation of a bearing.
func (a aboard) toTrue(c *calculation) (func(angle.Compass) (angle.True, error), error) {
	ofBearing := c.does(DeviationOfBearing)
	variation, _ := a.v.variation(c, 1)
	own, err := a.with.Deviation.OnCompass(a.head)
	if err != nil {
		return nil, err
	}
	applied := appliedDeviation(c, own)
	return func(reading angle.Compass) (angle.True, error) {
		if ofBearing {
			d, err := a.with.Deviation.OnCompass(reading)
			return angle.TrueFrom(reading.FromNorth() + withSlips(c, d.Angle()) + variation), err
		}
		return angle.TrueFrom(reading.FromNorth() + applied + variation), nil
	}, nil
}

// wholeTrue is a true direction that a learner may hand in, to the whole degree.
func wholeTrue(key, what string) Figure {
	return Figure{Key: key, What: what, Form: Direction, Rounding: 1, North: "T"}
}

// capital begins a sentence with a capital.
func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}
