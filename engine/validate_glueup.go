package engine

import (
	"fmt"
	"slices"
)

// Bounds of what is stated for gluing up.
const (
	maxRate     = 60_000.0 // mm a minute: a metre a second
	maxClamps   = 1000
	maxKinds    = 40
	maxClamp    = 100_000.0 // N of one clamp
	maxWeight   = 100_000.0 // kg
	maxAltitude = 6000.0    // m
	minAltitude = -500.0
	maxFlow     = 100_000.0 // litres a minute
)

// glueUp checks what there is for gluing up.
func (r *review) glueUp() {
	g := &r.d.GlueUp
	if !slices.Contains(Splits[:], g.Split) {
		r.block("split-unknown", "glueUp.split", "Nothing is known of the split “%s”. Pick one from the list.", g.Split)
	}
	if g.Tool != anyTool && !slices.Contains(SpreadTools[:], g.Tool) {
		r.block("spread-tool-unknown", "glueUp.tool", "Nothing is known of spreading with “%s”. Pick a tool from the list.", g.Tool)
	}
	if g.Press != "" && !slices.Contains(PressWays[:], g.Press) {
		r.block("press-unknown", "glueUp.press", "Nothing is known of pressing by “%s”. Pick a way from the list.", g.Press)
	}
	if n := len(g.MoreClamps) + len(g.MoreCauls); n > maxKinds {
		r.block("glue-up-kinds", "glueUp.moreClamps", "There are %d more kinds of clamps and cauls; up to %d can be computed. Gather those that are alike.", n, maxKinds)
		return
	}
	figures := []glueUpFigure{
		{"rate", "The rib edge one person wets in a minute, in mm,", g.Rate, 10, maxRate},
		{"weight", "The weight at hand, in kg,", g.Weight, 0, maxWeight},
		{"screws.diameter", "The thread of the screws, in mm,", g.Screws.Diameter, 1, 30},
		{"screws.depth", "The thread in the rib, in mm,", g.Screws.Depth, 1, maxTool},
		{"screws.head", "The head of the screws, in mm,", g.Screws.Head, 1, 60},
		{"vacuum.share", "The share of the air that the pump takes out, in %,", g.Vacuum.Share, 1, 99.9},
		{"vacuum.altitude", "The altitude of the shop, in m,", g.Vacuum.Altitude, minAltitude, maxAltitude},
		{"vacuum.flow", "The flow of the pump, in litres a minute,", g.Vacuum.Flow, 0.1, maxFlow},
	}
	figures = append(append(figures, clampFigures("clamps", g.Clamps)...), caulFigures("caul", g.Caul)...)
	for i, c := range g.MoreClamps {
		path := fmt.Sprintf("moreClamps[%d]", i)
		figures = append(figures, clampFigures(path, c)...)
		if c.Count == 0 {
			r.add(Advice, "glue-up-none", "glueUp."+path+".count", "How many clamps of this kind there are is not told, so none of them counts. Type how many you have.")
		}
	}
	for i, c := range g.MoreCauls {
		path := fmt.Sprintf("moreCauls[%d]", i)
		figures = append(figures, caulFigures(path, c)...)
		if c.Count == 0 {
			r.add(Advice, "glue-up-none", "glueUp."+path+".count", "How many cauls of this size there are is not told, so none of them counts. Type how many you have.")
		}
	}
	for _, v := range figures {
		if v.value != 0 && (v.value < v.low || v.value > v.high) {
			r.block("glue-up-range", "glueUp."+v.field, "%s is %s; from %s to %s can be computed. Check the figure; 0 is not stated.", v.name, plainNumber(v.value), plainNumber(v.low), plainNumber(v.high))
		}
	}
}

// glueUpFigure is one figure and its bounds; 0 is always fine.
type glueUpFigure struct {
	field, name string
	value       float64
	low, high   float64
}

// clampFigures are those of one kind of clamps.
func clampFigures(path string, c Clamps) []glueUpFigure {
	return []glueUpFigure{
		{path + ".count", "The number of clamps", float64(c.Count), 0, maxClamps},
		{path + ".force", "The force of one clamp, in N,", c.Force, 10, maxClamp},
		{path + ".reach", "The reach of the clamps, in mm,", c.Reach, 1, maxTool},
	}
}

// caulFigures are those of one size of cauls.
func caulFigures(path string, c CaulStock) []glueUpFigure {
	return []glueUpFigure{
		{path + ".count", "The number of cauls", float64(c.Count), 0, maxClamps},
		{path + ".width", "The width of the cauls, in mm,", c.Width, 5, maxTool},
		{path + ".height", "The height of the cauls, in mm,", c.Height, 5, maxTool},
	}
}
