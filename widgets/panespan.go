package widgets

// RevealSpan scrolls so that the content from top to bottom shows, or its upper
// end if it is higher than the pane. It is for objects that have not been
// painted yet: the toolkit does not know where those are.
func (p *Pane) RevealSpan(top, bottom float32) {
	p.scroll.Refresh() // lay out what changed size just now
	y, room := p.scroll.Offset.Y, p.scroll.Size().Height
	if bottom+revealMargin > y+room {
		y = bottom + revealMargin - room
	}
	if top-revealMargin < y {
		y = top - revealMargin
	}
	p.scrollTo(y)
}
