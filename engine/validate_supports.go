package engine

import (
	"fmt"
	"math"
	"slices"
)

// Stiffness of a bed that can be computed, N/mm³: softer than felt and stiffer
// than wood on wood. Common practice, no source.
const (
	minBed = 0.02
	maxBed = 100.0
)

// Feet of the person's own, and aprons, that can be computed; common practice,
// no source.
const (
	minFeet        = 3
	maxFeet        = 20
	minFoot        = 5.0 // side of a foot's pad, mm
	minApron       = 5.0 // thickness of an apron, mm
	minApronHeight = 20.0
	maxApronHeight = 500.0
)

// supports checks what the panel rests on.
func (r *review) supports(sized bool) {
	s := r.d.Supports
	kinds := []SupportKind{RailsAcross, RailsAlong, FourLegs, AllEdges, OnLedger, OwnFeet}
	if !slices.Contains(kinds, s.Kind) {
		r.block("support-kind", "supports.kind", "How the top rests is not told: “%s” is none of the six ways. Pick rails across, rails along, legs, all edges, a ledger or own feet.", s.Kind)
		return
	}
	if s.Bearing <= 0 {
		r.block("support-bearing", "supports.bearing", "What the top rests on is %s wide, but must be more than 0. 40 to 80 mm is usual for rails and legs.", inMM(s.Bearing))
		return
	}
	if s.Bed != 0 && !(s.Bed >= minBed && s.Bed <= maxBed) {
		r.block("support-bed", "supports.bed", "What lies between top and support is given %s N/mm³; from %s to %s can be computed. Wood on wood is about 10, rubber 0.5 to 3, felt 0.05 to 0.2; leave it empty for wood.",
			plainNumber(s.Bed), plainNumber(minBed), plainNumber(maxBed))
	}
	if s.Kind == OnLedger && !slices.Contains([]Edge{FrontEdge, BackEdge, LeftEdge, RightEdge}, s.LedgerEdge()) {
		r.block("ledger-edge", "supports.ledger", "Which edge the ledger holds is not told: “%s” is no edge. Pick front, back, left or right.", s.Ledger)
		return
	}
	if s.Fastened {
		r.screws("supports.screws", "each support", s.Screws)
	}
	if !sized {
		return
	}
	switch s.Kind {
	case AllEdges:
		if short := math.Min(r.d.Length, r.d.Width); 2*s.Bearing >= short {
			r.block("support-bearing", "supports.bearing", "Ledges %s wide on both sides meet under a panel of %s. Make them narrower than %s.", inMM(s.Bearing), inMM(short), inMM(short/2))
		}
		return
	case OwnFeet:
		r.feet()
		return
	}
	n := len(r.problems)
	if s.UsesEnd() {
		r.inset("endInset", "end", r.d.Length, s.Kind == OnLedger && !s.ledgerAlong())
	}
	if s.UsesSide() {
		r.inset("sideInset", "side", r.d.Width, s.Kind == OnLedger && s.ledgerAlong())
	}
	blocked := slices.ContainsFunc(r.problems[n:], func(p Problem) bool { return p.Severity == Blocking })
	if s.HasAprons() && !blocked {
		r.apron()
	}
}

// inset checks the two bearings that stand opposite each other, each inset
// from its own end or side of the panel, which is extent long that way. With a
// ledger at the opposite edge only one is set in.
func (r *review) inset(field, edge string, extent float64, ledger bool) {
	s := r.d.Supports
	path := "supports." + field
	inset := s.EndInset
	if edge == "side" {
		inset = s.SideInset
	}
	switch {
	case inset < 0:
		r.block("support-off-panel", path, "The middle of the support is %s outside the %s of the panel. An inset of %s puts it flush underneath.", inMM(-inset), edge, inMM(s.Bearing/2))
	case ledger && inset+1.5*s.Bearing >= extent:
		r.block("supports-overlap", path, "The support, %s in, runs into the ledger at the opposite edge, %s wide. Less than %s keeps them apart.",
			inMM(inset), inMM(s.Bearing), inMM(math.Max(0, extent-1.5*s.Bearing)))
	case !ledger && inset >= extent/2:
		r.block("support-crossed", path, "The supports are set in by %s, half of the %s between the two %ss or more, so they change places. Less than %s keeps them apart.",
			inMM(inset), inMM(extent), edge, inMM((extent-s.Bearing)/2))
	case !ledger && extent-2*inset <= s.Bearing:
		r.block("supports-overlap", path, "Supports %s wide, %s apart from middle to middle, run into each other. An inset under %s or narrower supports would do.",
			inMM(s.Bearing), inMM(extent-2*inset), inMM(math.Max(0, (extent-s.Bearing)/2)))
	case inset < s.Bearing/2-nearly:
		r.add(Advice, "support-sticks-out", path, "The support reaches %s beyond the %s of the panel, so only part of it bears. An inset of %s puts it flush underneath.",
			inMM(s.Bearing/2-inset), edge, inMM(s.Bearing/2))
	}
}

// feet checks feet of the person's own: on the panel, apart, and enough of them
// for it to stand.
func (r *review) feet() {
	s := r.d.Supports
	if n := len(s.Feet); n < minFeet {
		r.block("feet-few", "supports.feet", "The top stands on %d feet of its own, but needs at least three that do not stand in one line. Add feet, or pick rails.", n)
		return
	} else if n > maxFeet {
		r.block("feet-many", "supports.feet", "There are %d feet; up to %d can be computed. Gather close ones into one.", n, maxFeet)
		return
	}
	sound := true
	fault := func(code, field, format string, args ...any) {
		r.block(code, field, format, args...)
		sound = false
	}
	names := map[string]int{}
	for i, f := range s.Feet {
		path, name, half := fmt.Sprintf("supports.feet[%d]", i), s.FootName(i), s.Side(f)/2
		if f.Size != 0 && !(f.Size >= minFoot) {
			fault("foot-size", path+".size", "The pad of “%s” is %s wide, but must be at least %s. Leave it empty to make it as wide as the others.", name, inMM(f.Size), inMM(minFoot))
		}
		for _, c := range [...]struct {
			field, side string
			at, extent  float64
		}{{".x", "length", f.X, r.d.Length}, {".y", "width", f.Y, r.d.Width}} {
			switch {
			case c.at < 0 || c.at > c.extent:
				fault("foot-off-panel", path+c.field, "“%s” stands at %s along the %s, but the panel ends at 0 and %s. Put it between %s and %s.", name, inMM(c.at), c.side, inMM(c.extent), inMM(half), inMM(c.extent-half))
			case c.at < half-nearly || c.at > c.extent-half+nearly:
				r.add(Advice, "foot-sticks-out", path+c.field, "“%s” reaches beyond the edge of the panel, so only part of it bears. Between %s and %s along the %s it is flush underneath.", name, inMM(half), inMM(c.extent-half), c.side)
			}
		}
		if first, twice := names[name]; twice {
			r.add(Advice, "foot-name-twice", path+".name", "Feet %d and %d are both called “%s”, so what they carry cannot be told apart. Give one of them another name.", first+1, i+1, name)
		} else {
			names[name] = i
		}
		for j, o := range s.Feet[:i] {
			if reach := half + s.Side(o)/2; math.Abs(o.X-f.X) < reach-nearly && math.Abs(o.Y-f.Y) < reach-nearly {
				fault("feet-overlap", path+".x", "“%s” and “%s” stand on the same place. Move one of them aside, or remove it.", s.FootName(j), name)
				break
			}
		}
	}
	if sound && s.inLine() {
		r.block("feet-in-line", "supports.feet", "All feet stand in one line, so the top would tip over it. Move one of them well to the side of the line, by more than its own width.")
	}
}

// inLine reports whether one straight line runs over every foot's pad: that
// through the two that stand farthest apart.
func (s Supports) inLine() bool {
	var a, b Foot
	far := -1.0
	for i, f := range s.Feet {
		for _, o := range s.Feet[:i] {
			if d := math.Hypot(f.X-o.X, f.Y-o.Y); d > far {
				far, a, b = d, f, o
			}
		}
	}
	for _, f := range s.Feet {
		off := math.Abs((b.X-a.X)*(f.Y-a.Y)-(b.Y-a.Y)*(f.X-a.X)) / far
		if off > s.Side(f)/2 {
			return false
		}
	}
	return true
}

// apron checks the rails that join the legs.
func (r *review) apron() {
	s := r.d.Supports
	a := s.Apron
	r.material("supports.apron", "the aprons", a.Material)
	if most := math.Min(s.Bearing, maxRib); !(a.Thickness >= minApron && a.Thickness <= most) {
		r.block("apron-thickness", "supports.apron.thickness", "An apron %s thick cannot be computed: from %s to the legs' own %s, at most %s. 20 to 25 mm is usual.", inMM(a.Thickness), inMM(minApron), inMM(s.Bearing), inMM(maxRib))
	}
	r.between("apron-height", "supports.apron.height", "The height of the aprons", a.Height, minApronHeight, maxApronHeight, "70 to 120 mm is usual.")
	for _, way := range [...]struct {
		there bool
		clear float64
		field string
	}{{a.Front || a.Back, r.d.Length - 2*s.EndInset - s.Bearing, "endInset"}, {a.Left || a.Right, r.d.Width - 2*s.SideInset - s.Bearing, "sideInset"}} {
		if way.there && !(way.clear >= 2*minApronHeight) {
			r.block("apron-short", "supports."+way.field, "Only %s are left between the legs, too little for an apron. Set the legs further apart, or leave that apron out.", inMM(way.clear))
		}
	}
}
