package engine

import (
	"reflect"
)

// maxTool is more than any hand-held or table tool measures, mm.
const maxTool = 10_000.0

// tools checks that no size of a tool is below nothing or beyond measure. What
// is missing is told where the tool is asked for.
func (r *review) tools() { r.sizesOf("tools", reflect.ValueOf(r.d.Tools)) }

func (r *review) sizesOf(path string, v reflect.Value) {
	if v.Kind() == reflect.Float64 {
		if f := v.Float(); f < 0 || f > maxTool {
			r.block("tool-size", path, "A tool cannot measure %s here; from 0 to %s can be computed. Type 0 for a tool that is not there.", inMM(f), inMM(maxTool))
		}
		return
	}
	for i := range v.NumField() {
		key, _ := keyOf(v.Type().Field(i))
		r.sizesOf(join(path, key), v.Field(i))
	}
}
