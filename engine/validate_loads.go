package engine

// maxArm is the longest arm of a couple, mm: twice a person's height.
const maxArm = 4_000.0

// load checks one load; the texts call it name.
func (r *review) load(path, name string, l Load, sized, counted bool) {
	does, hint := "presses down", "Type its weight, or remove it."
	if l.Kind == Couple {
		does, hint = "pulls", "Type how hard it pulls, or remove it."
	}
	switch {
	case l.Force <= 0:
		r.block("load-force", path+".force", "“%s” %s with %s N, but it must be more than 0. %s", name, does, plainNumber(l.Force), hint)
	case l.Force > maxForce:
		r.block("load-force", path+".force", "“%s” %s with %s N, over the %s N that can be computed (some 100 t). Check the figure and its unit.", name, does, plainNumber(l.Force), plainNumber(maxForce))
	}
	switch l.Kind {
	case Uniform:
		return
	case Couple:
		r.couple(path, name, l, counted)
		return
	case Patch, Line:
	default:
		r.block("load-kind", path+".kind", "How “%s” lies on the top is not told: “%s” is none of the four shapes. Pick patch, line, uniform or couple.", name, l.Kind)
		return
	}
	r.footprint(path, "x", "length", name, l.X, l.SizeX, r.d.Length, sized)
	r.footprint(path, "y", "width", name, l.Y, l.SizeY, r.d.Width, sized)
	if l.Kind != Line {
		return
	}
	if long, wide, way, field := l.SizeX, l.SizeY, "along the length", ".sizeX"; l.SizeX > 0 && l.SizeY > 0 {
		if l.Across {
			long, wide, way, field = wide, long, "across the width", ".sizeY"
		}
		if long < wide-nearly {
			r.add(Advice, "line-turned", path+field, "The line “%s” runs %s but is only %s long and %s wide. Change the two, or the way it runs.", name, way, inMM(long), inMM(wide))
		}
	}
}

// couple checks what is a couple's own; counted says that the ribs are known.
func (r *review) couple(path, name string, l Load, counted bool) {
	if x, y := l.Pull.way(); x == 0 && y == 0 {
		r.block("couple-pull", path+".pull", "Which way “%s” pulls is not told: “%s” is none of the four ways. Pick right, left, back or front.", name, l.Pull)
	}
	switch {
	case l.Arm <= 0:
		r.block("couple-arm", path+".arm", "“%s” pulls %s above what holds against it, but must pull more than 0 above it to turn anything. From the bolts of a vise to the work in its jaws 100 to 250 mm are usual.", name, inMM(l.Arm))
	case l.Arm > maxArm:
		r.block("couple-arm", path+".arm", "“%s” pulls %s above what holds against it, over the %s that can be computed. Check the figure and its unit.", name, inMM(l.Arm), inMM(maxArm))
	}
	r.screws(path+".screws", "“"+name+"”", l.Screws)
	if !counted {
		return
	}
	if _, _, _, _, there := r.d.clearBay(l.Column, l.Row); !there {
		r.block("couple-off-grid", path+".column", "“%s” acts in bay %d from the left and %d from the front, but the ribs make %d by %d bays. Pick a bay that has a block.",
			name, l.Column+1, l.Row+1, max(0, r.d.Crosswise.number()-1), max(0, r.d.Lengthwise.number()-1))
	} else if !r.d.HasBlock(l.Column, l.Row) {
		r.block("couple-no-block", path+".column", "“%s” turns bay %d from the left and %d from the front, which is hollow: its skins would come off their ribs. A couple needs a block of solid wood: put one into this bay under “Edges and blocks”, or pick a bay that has one.",
			name, l.Column+1, l.Row+1)
	}
}

// footprint checks one direction of a patch or a line: size about at, on a panel that is
// extent long that way.
func (r *review) footprint(path, axis, side, name string, at, size, extent float64, sized bool) {
	sizeField := path + ".sizeX"
	if axis == "y" {
		sizeField = path + ".sizeY"
	}
	switch {
	case size <= 0:
		r.block("load-size", sizeField, "“%s” touches the top over %s along the %s, but must touch it over more than 0. A foot or a hand is about 100 mm.", name, inMM(size), side)
	case !sized:
	case size > extent+nearly:
		r.block("load-size", sizeField, "“%s” is %s long along the panel's %s of %s. Type the part that lies on the top, or make it a uniform load.", name, inMM(size), side, inMM(extent))
	case at-size/2 < -nearly || at+size/2 > extent+nearly:
		r.block("load-off-panel", path+"."+axis, "“%s” reaches from %s to %s along the %s, but the panel ends at 0 and %s. Put its middle between %s and %s.",
			name, inMM(at-size/2), inMM(at+size/2), side, inMM(extent), inMM(size/2), inMM(extent-size/2))
	}
}
