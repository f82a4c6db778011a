package plate

// pressure is what a load presses with over the part of its footprint that
// lies on the skins, MPa: q over all of it, and a slope by which the pressure
// of its couple grows from the middle (x, y) outwards, MPa/mm.
type pressure struct{ q, x, y, slopeX, slopeY float64 }

// pressure turns a load into pressures. A pressure c·(x − x0) over a rectangle
// a × b has no resultant and the first moment c·a³·b/12 about its middle.
func (s *system) pressure(l Press) pressure {
	a := overlap(l.X-l.SX/2, l.X+l.SX/2, s.p.X0, s.p.X1)
	b := overlap(l.Y-l.SY/2, l.Y+l.SY/2, s.p.Y0, s.p.Y1)
	x, y := s.centre(l)
	return pressure{l.P / (a * b), x, y, 12 * l.TX / (a * a * a * b), 12 * l.TY / (b * b * b * a)}
}

// turning returns the pressure of the couple at a place, MPa.
func (p pressure) turning(x, y float64) float64 {
	return p.slopeX*(x-p.x) + p.slopeY*(y-p.y)
}

// over calls f at points over a load's footprint with the force that each
// stands for, N, downwards, and the w of the skin on which it acts. The force
// acts on the top skin. The couple acts half on either skin: it is bolted
// through a block that is glued to both.
func (s *system) over(l Press, f func(force float64, w spot)) {
	p := s.pressure(l)
	couple := l.TX != 0 || l.TY != 0
	s.integrate(l.X, l.Y, l.SX, l.SY, func(x, y, area float64) {
		if !couple {
			f(p.q*area, s.spotAt(x, y, 0))
			return
		}
		half := p.turning(x, y) * area / 2
		f(p.q*area+half, s.spotAt(x, y, 0))
		f(half, s.spotAt(x, y, perSkin))
	})
}
