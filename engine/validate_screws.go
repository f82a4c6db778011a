package engine

// Screws that can be computed; common practice, no source.
const (
	maxScrews   = 100
	minScrew    = 2.0 // diameter, mm
	maxScrew    = 20.0
	maxThread   = 500.0
	maxWasher   = 100.0
	deepEnough  = 6.0 // thread in the wood over its diameter: EN 1995-1-1 8.7.2, from memory
	screwsUsual = "Screws of 4 to 6 mm with 30 to 50 mm of thread in the wood are usual."
)

// screws checks what holds a pull at one place. Nothing told is nothing wrong.
func (r *review) screws(path, subject string, s Screws) {
	if s == (Screws{}) {
		return
	}
	sound := true
	within := func(field, what string, v, low, high float64) {
		if v != 0 && !(v >= low && v <= high) {
			sound = false
			r.block("screws", path+"."+field, "%s at %s is %s; from %s to %s can be computed. %s", what, subject, inMM(v), inMM(low), inMM(high), screwsUsual)
		}
	}
	if s.Number < 0 || s.Number > maxScrews {
		sound = false
		r.block("screws", path+".number", "The number of screws at %s is %d; up to %d can be computed. %s", subject, s.Number, maxScrews, screwsUsual)
	}
	within("diameter", "The thread", s.Diameter, minScrew, maxScrew)
	within("depth", "The thread in the wood", s.Depth, minScrew, maxThread)
	within("washer", "The washer", s.Washer, minScrew, maxWasher)
	switch {
	case !sound:
	case s.Washer > 0 && s.Washer <= s.Diameter+1:
		r.block("screws", path+".washer", "The washers at %s are %s wide on bolts of %s, so they would slip through. Type their outer diameter, about three times the bolt's, or leave it empty for screws.", subject, inMM(s.Washer), inMM(s.Diameter))
	case !s.Told():
		missing, field := "how many there are", ".number"
		if s.Number > 0 {
			missing, field = "their diameter", ".diameter"
			if s.Diameter > 0 {
				missing, field = "how much thread sits in the wood", ".depth"
			}
		}
		r.add(Advice, "screws-not-told", path+field, "The screws at %s are not checked: %s is missing. %s", subject, missing, screwsUsual)
	case s.Washer == 0 && s.Depth < deepEnough*s.Diameter:
		r.add(Advice, "screws-short", path+".depth", "%s of thread in the wood is short for screws of %s at %s: %s or more is the least that the formula is made for. Longer ones hold more.", inMM(s.Depth), inMM(s.Diameter), subject, inMM(deepEnough*s.Diameter))
	}
}
