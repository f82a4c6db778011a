package engine

import (
	"fmt"
	"time"

	"flatwright/engine/proof"
)

// proof checks the proof load. What is wrong with it keeps nothing of the panel from being
// computed: it is advice, and [PlanProof] refuses or leaves it out.
func (r *review) proof() {
	p := &r.d.Proof
	if !p.Planned() {
		return
	}
	known := p.Stack == ""
	for _, s := range Stackables() {
		known = known || s.Key == p.Stack
	}
	if !known {
		r.advise("proof-stack", "proof.stack", "“%s” is nothing that is listed to be stacked, so water is taken instead. Pick one of those listed.", p.Stack)
	}
	if p.Piece < 0 || p.Piece > maxPiece {
		r.advise("proof-piece", "proof.piece", "A piece of %s kg is none that a person stacks. Weigh one and type it, up to %s kg.", plainNumber(p.Piece), plainNumber(maxPiece))
	}
	if p.Share < 0 || p.Share > mostShare {
		r.advise("proof-share", "proof.share", "A proof load is at most %s of the service load, because it is to stay far from where the top fails, and this one is %s of it. It is cut down: type %s or less.", plainNumber(mostShare), plainNumber(p.Share), plainNumber(mostShare))
	}
	if p.Stages < 0 || p.Stages > mostStages {
		r.advise("proof-stages", "proof.stages", "A proof load of %d stages cannot be read off one after the other. Three to six are usual.", p.Stages)
	}
	if _, ok := proof.WayOf(p.Way); p.Way != "" && !ok {
		r.advise("proof-way", "proof.way", "“%s” is no way of reading that is listed, so a straightedge with feeler gauges is taken. Pick one of those listed.", p.Way)
	}
	if p.Over != "" && p.Over != OnTheTop && p.Over != OnTheSupports && p.Over != OnTheFloor {
		r.advise("proof-over", "proof.over", "A gauge stands on the top, the supports or the floor, not on “%s”. The floor is taken until one of them is picked.", p.Over)
	}
	if p.Error < 0 || p.Hold < 0 || p.Hold > 24*60 {
		r.advise("proof-hold", "proof.hold", "The hold of a stage and what a reading may be off are 0 or more, and a hold is at most a day. The usual ones are taken.")
	}
	for i := range p.Rounds {
		for k, q := range p.Rounds[i].Readings {
			if _, err := time.Parse(ClockLayout, q.At); q.At != "" && err != nil {
				r.advise("proof-at", fmt.Sprintf("proof.rounds[%d].readings[%d].at", i, k), "A reading was taken at “%s”, which is not a date with a time. Type it as 2026-05-02T09:00, or leave it empty.", q.At)
			}
		}
	}
}
