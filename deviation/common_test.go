package deviation_test

import (
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"
)

func TestTheDrawnRowsAreFitForATable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		devtest.MustTable(t, devtest.DrawRows(t, 5*devtest.Deg, 40*devtest.Deg))
		devtest.MustTable(t, devtest.DrawOrdered(t, 15*devtest.Deg, 40*devtest.Deg))
	})
}
