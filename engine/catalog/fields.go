package catalog

// field is one numeric figure of a Sheet.
type field struct {
	name, unit string  // JSON name; unit as the CSV writes it
	below      float64 // no material reaches this
	zero       bool    // may be 0
	of         func(*Sheet) *float64
}

// sheetFields lists every numeric figure of a Sheet in the order of the type.
// The upper bounds keep typing errors and numbers that would overflow out: the
// densest metal is under 25 000 kg/m³, the stiffest crystal near 1 000 000 MPa
// (common practice, no source).
var sheetFields = []field{
	{"density", "kg/m3", 25000, false, func(s *Sheet) *float64 { return &s.Density }},
	{"eAlong", "MPa", 1e6, false, func(s *Sheet) *float64 { return &s.EAlong }},
	{"eAcross", "MPa", 1e6, false, func(s *Sheet) *float64 { return &s.EAcross }},
	{"eBendAlong", "MPa", 1e6, false, func(s *Sheet) *float64 { return &s.EBendAlong }},
	{"eBendAcross", "MPa", 1e6, false, func(s *Sheet) *float64 { return &s.EBendAcross }},
	{"gEdge", "MPa", 1e6, false, func(s *Sheet) *float64 { return &s.GEdge }},
	{"gRolling", "MPa", 1e6, false, func(s *Sheet) *float64 { return &s.GRolling }},
	{"nu", "1", 10, true, func(s *Sheet) *float64 { return &s.Nu }},
	{"fBendAlong", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FBendAlong }},
	{"fBendAcross", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FBendAcross }},
	{"fTensAlong", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FTensAlong }},
	{"fTensAcross", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FTensAcross }},
	{"fCompAlong", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FCompAlong }},
	{"fCompAcross", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FCompAcross }},
	{"fEdgeShear", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FEdgeShear }},
	{"fRolling", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FRolling }},
	{"fBearing", "MPa", 10000, false, func(s *Sheet) *float64 { return &s.FBearing }},
	{"cvE", "1", 1, true, func(s *Sheet) *float64 { return &s.CVE }},
	{"cvStrength", "1", 1, true, func(s *Sheet) *float64 { return &s.CVStrength }},
	{"cvDensity", "1", 1, true, func(s *Sheet) *float64 { return &s.CVDensity }},
	{"swellAlong", "1/%", 0.1, true, func(s *Sheet) *float64 { return &s.SwellAlong }},
	{"swellAcross", "1/%", 0.1, true, func(s *Sheet) *float64 { return &s.SwellAcross }},
	{"ePlyAlong", "MPa", 1e6, true, func(s *Sheet) *float64 { return &s.EPlyAlong }},
	{"ePlyAcross", "MPa", 1e6, true, func(s *Sheet) *float64 { return &s.EPlyAcross }},
	{"eThrough", "MPa", 1e6, true, func(s *Sheet) *float64 { return &s.EThrough }},
}

// fieldNamed returns the field with that JSON name.
func fieldNamed(name string) (field, bool) {
	for _, f := range sheetFields {
		if f.name == name {
			return f, true
		}
	}
	return field{}, false
}
