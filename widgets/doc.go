// Package widgets holds the Fyne widgets of our own: the drawing board, the
// entry for a quantity, labelled fields, foldable groups, result tiles and
// small bars.
//
// It knows Fyne and engine/draw, not wood: plain values go in, callbacks come
// out. A setter never fires the callback of the act it mirrors. A widget keeps
// hover and focus, never a second copy of the truth.
//
// Colours have names ([ColorPaper] and the rest); the app's theme defines them.
// Under a theme that does not know a name the nearest one of the toolkit is
// taken. Sizes are the theme's own: SizeNameHeadingText for result figures,
// SizeNameSubHeadingText for headings, SizeNameText and SizeNameCaptionText.
package widgets
