package engine

import (
	"bytes"
	"slices"
	"strings"
	"testing"
)

func TestAirIsChecked(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		air  Air
		want []string
	}{
		{"nothing stated", Air{}, nil},
		{"dry to damp", Air{minHumidity, 60, maxHumidity}, nil},
		{"below a desert", Air{4.9, 50, 50}, []string{"blocking air-humidity air.madeAt"}},
		{"a fraction, not percent", Air{50, 0.5, 0}, []string{"blocking air-humidity air.above"}},
		{"steam", Air{50, 50, 95.1}, []string{"blocking air-humidity air.below"}},
		{"negative", Air{-50, 50, 50}, []string{"blocking air-humidity air.madeAt"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := testTop()
			d.Air = test.air
			if got := told(problemsOf(d)); !slices.Equal(got, test.want) {
				t.Errorf("Validate = %v; want %v", got, test.want)
			}
		})
	}
}

// A design that states no air is saved as before there was any; what a newer
// program put into it is kept.
func TestAirInFiles(t *testing.T) {
	t.Parallel()
	data, err := Encode(testTop())
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(data, []byte(`"air"`)) {
		t.Errorf("Encode writes air that nobody stated:\n%s", data)
	}
	for _, test := range []struct{ name, air string }{
		{"stated", `"air": {"madeAt": 55, "below": 40}`},
		{"nothing known in it", `"air": {"wind": "north"}`},
	} {
		old := strings.Replace(string(data), "{", "{"+test.air+",", 1)
		d, err := Decode([]byte(old))
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		if test.name == "stated" && d.Air != (Air{MadeAt: 55, Below: 40}) {
			t.Errorf("air = %+v; want 55, not stated, 40", d.Air)
		}
		again, err := Encode(d)
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		flat := strings.NewReplacer("\n", "", " ", "")
		if got, want := flat.Replace(string(again)), flat.Replace(test.air); !strings.Contains(got, want) {
			t.Errorf("%s: Encode lost %s:\n%s", test.name, want, again)
		}
	}
}
