package deviation_test

import (
	"errors"
	"fmt"
	"sync"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Every exported value compares with package cmp as it is: equal to itself, and
// not to another.
func TestValuesCompareWithoutOptions(t *testing.T) {
	rows := devtest.Every15(devtest.Usual)
	table := devtest.MustTable(t, rows)
	explain := func(h angle.Angle) deviation.Explanation {
		e, err := table.ExplainDeviation(angle.CompassFrom(h))
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	ambiguous := func(m angle.Angle) *deviation.AmbiguousHeadingError {
		_, err := devtest.MustTable(t, steep).OnMagnetic(angle.MagneticFrom(m))
		e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err)
		if !ok {
			t.Fatal(err)
		}
		return e
	}
	for _, pair := range [][2]any{
		{deviation.East(devtest.Deg), deviation.East(devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Deg))},
		{rows[0], rows[1]},
		{devtest.AsMagnetic(rows)[0], devtest.AsMagnetic(rows)[1]},
		{table.Entries(), table.Entries()[1:]},
		{deviation.ByCompass, deviation.ByMagnetic},
		{explain(0), explain(devtest.Deg)},
		{&deviation.Error{Row: 1}, &deviation.Error{Row: 2}},
		{ambiguous(67 * devtest.Deg), ambiguous(68 * devtest.Deg)},
	} {
		if !cmp.Equal(pair[0], pair[0]) {
			t.Errorf("%T is not equal to itself", pair[0])
		}
		if cmp.Equal(pair[0], pair[1]) {
			t.Errorf("%T: %v equals %v", pair[0], pair[0], pair[1])
		}
	}
}

// A table does not change once it is made; any number may use it.
func TestManyGoroutinesOnOneTable(t *testing.T) {
	rows := devtest.Every15(devtest.Usual)
	for _, table := range []*deviation.Table{devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows)).Smooth(), devtest.MustTable(t, steep)} {
		faults := make(chan error, 32)
		var group sync.WaitGroup
		for g := range cap(faults) {
			group.Go(func() {
				for i := range 200 {
					c := angle.CompassFrom(angle.Angle(i*g) * devtest.Deg)
					d, err1 := table.OnCompass(c)
					e, err2 := table.ExplainDeviation(c)
					if err1 != nil || err2 != nil || d != e.Deviation {
						faults <- fmt.Errorf("on %v: %v, %v and %v, %v", c, d, err1, e.Deviation, err2)
						return
					}
					table.Entries()[0].Deviation = deviation.None()
					table.Smooth().WithUncertainty(devtest.Sigma(devtest.Deg))
					table.OnMagnetic(angle.MagneticFrom(angle.Angle(i*g) * devtest.Deg))
				}
			})
		}
		group.Wait()
		close(faults)
		for err := range faults {
			t.Error(err)
		}
	}
}

func TestLookingUpAllocatesNothing(t *testing.T) {
	rows := devtest.Every15(devtest.Usual)
	compass, magnetic := devtest.MustTable(t, rows), devtest.MustTable(t, devtest.AsMagnetic(rows))
	for name, table := range map[string]*deviation.Table{
		"by compass": compass, "by magnetic": magnetic,
		"by compass, smooth": compass.Smooth(), "by magnetic, smooth": magnetic.Smooth(),
	} {
		h := angle.Angle(0)
		if n := testing.AllocsPerRun(200, func() {
			h += 7 * devtest.Deg
			if _, err := table.OnCompass(angle.CompassFrom(h)); err != nil {
				t.Fatal(err)
			}
			if _, err := table.OnMagnetic(angle.MagneticFrom(h)); err != nil {
				t.Fatal(err)
			}
		}); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}
