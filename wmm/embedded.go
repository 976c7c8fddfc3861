package wmm

import (
	"embed"
	"sync"
)

// The published coefficients; see README.md beside them.
//
//go:embed coefficients/*.COF
var embedded embed.FS

// WMM2025 returns the World Magnetic Model for 2025.0 to 2030.0.
func WMM2025() *Model { return wmm2025() }

// WMM2020 returns the World Magnetic Model for 2020.0 to 2025.0.
func WMM2020() *Model { return wmm2020() }

// WMM2015v2 returns the World Magnetic Model for 2015.0 to 2020.0 in its second
// version, released in September 2018.
func WMM2015v2() *Model { return wmm2015v2() }

// Models returns the set of all models of the package, for 1900.0 to 2030.0: the World
// Magnetic Models from 2015.0, and [IGRF14] before. It reads the table of IGRF14 at the
// first date before 2015.0.
func Models() *Set {
	modelsOnce.Do(func() {
		s, err := NewSet(WMM2025(), WMM2020(), WMM2015v2())
		if err != nil {
			panic(err)
		}
		s.last = &lastResort{name: igrfName, from: 1900, until: 2030, set: IGRF14}
		models = s
	})
	return models
}

var (
	wmm2025   = once("WMM2025")
	wmm2020   = once("WMM2020")
	wmm2015v2 = once("WMM2015v2")

	// Not made when the package starts: see igrf14Table.
	modelsOnce sync.Once
	models     *Set
)

// once reads an embedded model when it is first asked for.
func once(name string) func() *Model {
	return sync.OnceValue(func() *Model {
		f, err := embedded.Open("coefficients/" + name + ".COF")
		if err != nil {
			panic(err) // the file is part of the program
		}
		defer f.Close()
		m, err := ReadCOF(f)
		if err != nil {
			panic(err)
		}
		return m
	})
}
