package tidal_test

import (
	"bytes"
	"errors"
	"os"
	"testing"

	"lubberline.example/angle/record"
	"lubberline.example/course/tidal"
)

// FuzzReadTable checks that a table that is read is written and read back.
func FuzzReadTable(f *testing.F) {
	text, err := os.ReadFile("testdata/invented.csv")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte("place,hour,set,springs,neaps\nA,HW-3,045,1,0.5\n"))
	f.Add([]byte(`[{"place":"A","hour":-3,"set":"045","springs":1.2,"neaps":"0.4 kn","spring_range":"15 ft","neap_range":2}]`))
	f.Add([]byte("place,hour,springs,neaps,port\n'=A,−1,0,0,\"a\"\"b\"\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		table, err := tidal.ReadTable(bytes.NewReader(text))
		if err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		readBack(t, table)
	})
}
