package note

// The arguments by which no plan is shorter than a bound.
const (
	BoundArea     Code = "bound-area"
	BoundTallest  Code = "bound-tallest-panel"
	BoundStack    Code = "bound-panels-stacked"
	BoundBeside   Code = "bound-panels-side-by-side"
	BoundRows     Code = "bound-rows-of-pattern"
	BoundBoth     Code = "bound-beside-and-stacked"
	BoundAllPlans Code = "bound-all-plans-tried"
	BoundLoosened Code = "bound-plans-without-ties-tried"
	BoundColumns  Code = "bound-plans-of-columns-tried"
	BoundSums     Code = "bound-sums-of-sizes"
	BoundSearched Code = "bound-search-exhausted"
)

var bounds = table{
	BoundArea:     {Remark, "the area of all panels gives the bound", "area"},
	BoundTallest:  {Remark, "one panel gives the bound", "tallest panel"},
	BoundStack:    {Remark, "panels that share a column give the bound", "panels that must lie one below another"},
	BoundBeside:   {Remark, "lines across the cloth give the bound", "panels side by side"},
	BoundRows:     {Remark, "the rows of the pattern give the bound", "rows of the pattern"},
	BoundBoth:     {Remark, "lines across and along the cloth give the bound", "panels side by side and one below another"},
	BoundAllPlans: {Remark, "branching gives the bound", "every plan tried"},
	BoundLoosened: {Remark, "branching without loose ties gives the bound", "every plan tried, with loose ties left out"},
	BoundColumns:  {Remark, "branching on bound panels gives the bound", "every plan of the panels bound to columns tried"},
	BoundSums:     {Remark, "sums of sizes give the bound on plain cloth", "sums of panel sizes"},
	BoundSearched: {Remark, "an exhausted search gives the bound on plain cloth", "exhausted search"},
}
