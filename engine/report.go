package engine

import (
	"encoding/json"
	"fmt"
	"io"

	"flatwright/engine/length"
)

// ReportJSON writes a design and everything computed about it as JSON, in
// engine units: {"format": 1, "design": …, "result": …, "pieces": …} with the keys
// of the JSON tags of [Design], [Result] and [Piece]. A list with nothing in it is
// [].
func ReportJSON(w io.Writer, d Design, r Result) error {
	raw, err := Encode(d)
	if err != nil {
		return err
	}
	pieces := []Piece{}
	if !r.Blocked() {
		pieces = d.Pieces()
	}
	out, err := json.MarshalIndent(struct {
		Format int             `json:"format"`
		Design json.RawMessage `json:"design"`
		Result Result          `json:"result"`
		Pieces []Piece         `json:"pieces"`
	}{FormatVersion, raw, listed(r), pieces}, "", "  ")
	if err != nil {
		return fmt.Errorf("write the report: %w", err)
	}
	_, err = w.Write(append(out, '\n'))
	return err
}

// listed returns a result whose lists are empty instead of nil.
func listed(r Result) Result {
	r.Problems, r.Parts, r.Margins, r.Knobs, r.Working = list(r.Problems), list(r.Parts), list(r.Margins), list(r.Knobs), list(r.Working)
	r.Mass.ByKind, r.Depth.Curve, r.Build.Steps = list(r.Mass.ByKind), list(r.Depth.Curve), list(r.Build.Steps)
	r.Bed = r.Bed.listed()
	r.GlueUp = r.GlueUp.listed()
	r.Cases = append([]CaseResult{}, r.Cases...)
	for i := range r.Cases {
		r.Cases[i].Loads = list(r.Cases[i].Loads)
	}
	return r
}

func list[T any](s []T) []T {
	if s == nil {
		return []T{}
	}
	return s
}

// Report writes the same for people to read.
func Report(w io.Writer, d Design, r Result, f length.Format) error {
	p := printer{w: w}
	p.line("%s", d.Name)
	p.line("%s × %s × %s, core %s", f.Print(d.Length), f.Print(d.Width), f.Print(d.TotalDepth()), f.Print(d.CoreDepth))
	for _, q := range r.Problems {
		p.line("%s %s", [...]string{"○", "■", "✗"}[q.Severity], InUnits(q.Text, f))
	}
	if r.Blocked() {
		return p.err
	}
	m := r.Mass
	p.line("\nWeight %s (%.0f %% of a solid slab), glue %s of it; %d rib pieces, %d half-laps", length.Mass(m.Total, f), 100*m.Share, length.Mass(m.Glue, f), m.Pieces, m.Laps)
	p.line("%s%s", r.Cost.Line(), r.Cost.over(d.Limits.Cost))
	if m.Aprons > 0 {
		p.line("The aprons weigh %s beside it; they bend under it and hang on the legs.", length.Mass(m.Aprons, f))
	}
	for _, s := range [...]struct {
		name string
		v    Direction
	}{{"along", r.Stiffness.Along}, {"across", r.Stiffness.Across}} {
		p.line("Stiffness %s: EI %s, shear %s; %.0f %% of the solid slab", s.name, rigidityText(s.v.EI, f), shearText(s.v.GA, f), 100*s.v.EI/s.v.SlabEI)
	}
	p.line("Twist: GJ %s", rigidityText(r.Stiffness.GJ, f))
	tips := r.NotHeld() != ""
	if tips {
		p.line("\nThe top tips: there is no sag and no margin to tell.")
	}
	for i, c := range r.Cases {
		if tips {
			break
		}
		p.line("\n%s: sag %s (bending %.0f %%, shear %.0f %%, twist %.0f %%); solid slab %s", c.Name, length.Sag(c.Sag, f), 100*c.Bending, 100*c.Shear, 100*c.Twist, length.Sag(c.SlabSag, f))
		for j, l := range c.Loads {
			stiffness := ""
			if l.Stiffness > 0 {
				stiffness = ", " + InUnits(length.Number(l.Stiffness, 3)+" N/mm", f)
			}
			p.line("  under %s: %s%s (%s %s)", l.Name, length.Sag(l.Sag, f), stiffness, d.Cases[i].Loads[j].Strength(f), LoadWords(d, d.Cases[i].Loads[j], f))
		}
	}
	if r.Whole != nil && r.Whole.Cases[r.Governing].Ribs != nil {
		p.line("\nSkin between the ribs and edges, under “%s”:", r.Cases[r.Governing].Name)
		for _, line := range r.Whole.Cases[r.Governing].detail(f) {
			p.line("  %s", line)
		}
	}
	if r.Whole != nil && r.Whole.Twist != nil {
		p.line("\nTwist:")
		for _, line := range r.Whole.Twist.Lines(f) {
			p.line("  %s", InUnits(line, f))
		}
	}
	if text := r.Whole.NoTwist(d); text != "" {
		p.line("\n%s", text)
	}
	if r.Whole != nil && len(r.Whole.Lean) > 0 {
		p.line("\n%s", r.Whole.LeanLine(f))
	}
	if r.Whole != nil {
		if line := d.FastenedLine(r.Whole, f); line != "" {
			p.line("\n%s", line)
		}
	}
	for _, c := range r.Cases {
		if c.Apart != "" {
			p.line("\nUnder “%s” the closed form does not hold. %s", c.Name, InUnits(c.Apart, f))
		}
	}
	if len(r.Margins) > 0 {
		p.line("\nMargins (1 is just enough), lowest first:")
	}
	for _, g := range r.Margins {
		p.line("  %6s  %s, %s; the loads times %s", length.Number(g.Value, 3), g.Name, InUnits(g.Where, f), times(g.Times))
	}
	if !tips {
		p.line("\nSag goes with core depth to the power −%.2f.", r.Depth.Exponent)
	}
	p.longTerm(d, r, f)
	p.bed(d, &r.Bed, f)
	p.glueUp(&r.GlueUp, f)
	p.proof(d)
	p.mends(d, r, f)
	p.line("\nBuild, as planned:")
	for _, s := range r.Build.Steps {
		p.line("  %s: %s, %s to %s", s.Name, Minutes(s.Low, s.High), clock(s.Starts), clock(s.Ends))
	}
	p.line("  Nothing on it before %s.", clock(r.Build.LoadFrom))
	if noted := d.noted(r); noted != "" {
		p.line("  %s", noted)
	}
	p.line("\n%s", Disclaimer)
	return p.err
}

// printer keeps the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// proof tells of the proof load what needs no panel computed.
func (p *printer) proof(d Design) {
	for i, round := range d.Proof.Rounds {
		if i == 0 {
			p.line("\nProof load, %s, read by %s; the packet has its stages:", d.Proof.Stackable().Name, d.Proof.Reads().Name)
		}
		p.line("  Round %d: %d readings", i+1, len(round.Readings))
	}
}

// mends writes what was made otherwise, how it is rated and what can be done about it.
func (p *printer) mends(d Design, r Result, f length.Format) {
	if len(d.Built) == 0 {
		return
	}
	p.line("\nMade otherwise than drawn:")
	for _, b := range d.Built {
		p.line("  %s", b.Words(f))
	}
	if a := r.AsBuilt; a != nil {
		for i, sag := range a.Sags {
			if i < len(r.Cases) {
				p.line("  as built under %s: sag %s, designed %s", r.Cases[i].Name, length.Sag(sag, f), length.Sag(r.Cases[i].Sag, f))
			}
		}
		p.line("  as built: lowest margin %s (%s), designed %s", length.Number(a.Margin, 3), a.Lowest.Name, length.Number(a.DesignedMargin, 3))
	}
	for _, m := range d.Mends(r) {
		p.line("  %s", InUnits(m.What, f))
		for _, way := range m.Ways {
			p.line("    %s", InUnits(way, f))
		}
	}
}
