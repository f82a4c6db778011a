package catalog

import (
	"io/fs"
	"strings"
)

func kindKey(k Kind) string { return k.Key }

// readKinds reads kinds.csv: one field of one kind of material a row.
func readKinds(fsys fs.FS) ([]Kind, error) {
	rows, err := readRows(fsys, "kinds.csv", "kind,field,value,source")
	if err != nil {
		return nil, err
	}
	kinds, first := map[string]*Kind{}, map[string]row{}
	for _, r := range rows {
		key := r.cells[0]
		if key == "" {
			return nil, r.fail(0, "the kind has no key")
		}
		k := kinds[key]
		if k == nil {
			k = &Kind{Key: key, Sources: map[string]string{}}
			kinds[key], first[key] = k, r
		}
		if err := k.read(r); err != nil {
			return nil, err
		}
	}
	list := make([]Kind, 0, len(kinds))
	for _, key := range sortedKeys(kinds) {
		k := kinds[key]
		if k.Name == "" {
			return nil, first[key].fail(0, "%s has no name", key)
		}
		var all []string
		for _, name := range kindFields {
			if k.Sources[name] == "" {
				return nil, first[key].fail(0, "%s: %s is missing", key, name)
			}
			all = append(all, name+": "+k.Sources[name])
		}
		k.Source = strings.Join(all, "; ")
		list = append(list, *k)
	}
	return list, nil
}

// kindFields are the fields that every kind must have, beside its name.
var kindFields = []string{"kmod1", "kmod2", "kdef", "gammaM", "slot", "kn", "shearLagSpan", "buckleAlong", "buckleAcross"}

// read takes one row into a kind.
func (k *Kind) read(r row) error {
	name := r.cells[1]
	if name == "name" {
		return r.text(2, &k.Name)
	}
	count := map[string]int{"kmod1": 5, "kmod2": 5, "kdef": 2, "slot": 0}
	n, ok := count[name]
	if !ok {
		n = 1
	}
	if k.Sources[name] != "" {
		return r.fail(1, "%s of %s is given twice", name, k.Key)
	}
	source, err := r.source(3)
	if err != nil {
		return err
	}
	var v []float64
	if name == "slot" {
		if r.cells[2] != "notch" && r.cells[2] != "net" {
			return r.fail(2, "a slot is checked by notch or net, not %q", r.cells[2])
		}
	} else if v, err = r.numbers(2, n); err != nil {
		return err
	}
	switch name {
	case "kmod1", "kmod2":
		for i := 1; i < n; i++ {
			if v[i] < v[i-1] {
				return r.fail(2, "the factors must not fall from permanent to instantaneous")
			}
		}
		copy(k.KMod[name[4]-'1'][:], v)
	case "kdef":
		copy(k.KDef[:], v)
	case "gammaM":
		k.GammaM = v[0]
	case "slot":
		k.NotchFactor = r.cells[2] == "notch"
	case "kn":
		k.KN = v[0]
	case "shearLagSpan":
		k.ShearLagSpan = v[0]
	case "buckleAlong":
		k.BuckleAlong = v[0]
	case "buckleAcross":
		k.BuckleAcross = v[0]
	default:
		return r.fail(1, "kinds have no field %q", name)
	}
	if n == 1 && v[0] == 0 {
		return r.fail(2, "%s must be more than 0", name)
	}
	k.Sources[name] = source
	return nil
}
