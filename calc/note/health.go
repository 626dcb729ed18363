package note

// What several operations say alike: cautions for body and house, and what to
// measure again.
const (
	FireRules      Code = "fire-rules"
	AskFireCheck   Code = "ask-fire-check"
	Blades         Code = "blades-cut"
	HandUnderCloth Code = "hand-under-cloth"
	OldStuffing    Code = "old-stuffing"
	FoamBurns      Code = "foam-burns"
	FoamDust       Code = "foam-dust"
	SprayAdhesive  Code = "spray-adhesive"
	FillingDust    Code = "filling-dust"
	WashOldHair    Code = "wash-old-hair"
	NeedlesWound   Code = "needles-wound"
	PinsWound      Code = "pins-and-tacks-wound"
	ToolsSlip      Code = "hand-tools-slip"
	SpringFlies    Code = "spring-flies"
	StapleGun      Code = "staple-gun"
	SteamBurns     Code = "steam-burns"

	MeasureCloth   Code = "measure-cloth-again"
	MeasureRepeats Code = "measure-repeats"
	LeftOut        Code = "notes-left-out"
)

var health = table{
	FireRules: {Danger, "cloths or fillings are used",
		"Whether these cloths and fillings may be used for this piece is a matter of the fire rules where it is supplied; local codes and the supplier's papers decide."},
	AskFireCheck: {Danger, "foam is used",
		"Ask /v1/fire-check which rules hold for this piece, and keep the supplier's papers; local codes and the enforcing authority decide."},
	Blades: {Danger, "something is cut",
		"Shears, rotary cutters, trimming knives, foam saws and needles cut and stab hands: cut away from yourself and keep blades closed."},
	HandUnderCloth: {Danger, "cloth is cut on the piece",
		"Shears, seam rippers and trimming knives cut hands: cut away from yourself, with nobody's hand under the cloth."},
	OldStuffing: {Danger, "old stuffing may be opened",
		"Old stuffing can hold dust, mould, pests and, rarely, germs: wear a mask and gloves, bag it, and vacuum rather than sweep. Old finishes can hold lead."},
	FoamBurns: {Danger, "foam is used",
		"Foam and its dust burn fast and give deadly smoke: no flame, no smoking, no heater and no sparks near it; store little, sweep up, and keep the supplier's papers."},
	FoamDust: {Danger, "foam is cut",
		"Foam dust gets into lungs: wear a mask against it."},
	SprayAdhesive: {Danger, "foam or wadding is glued",
		"Spray adhesive needs fresh air and no flame; follow its label."},
	FillingDust: {Danger, "wadding and loose fillings are handled",
		"Lint and dust of fillings get into lungs and burn: wear a mask, and keep flames and sparks away."},
	WashOldHair: {Danger, "loose fillings are used",
		"Have old hair and fibre washed before it is used again."},
	NeedlesWound: {Danger, "a panel is buttoned",
		"Buttoning needles, regulators and shears wound: work with the point away from you, and know where the other hand is behind the work."},
	PinsWound: {Danger, "fullness is pinned and tacked",
		"Scissors, needles, pins and tacks wound: cut away from yourself, and hold tacks on the hammer and not in the mouth."},
	ToolsSlip: {Danger, "a frame is webbed",
		"A tack lifter, a regulator and a web strainer slip and cut: work away from yourself, and hold tacks on the hammer, never in the mouth."},
	SpringFlies: {Danger, "springs are lashed",
		"A compressed spring flies: hold it down by the cord until it is tied, and keep the face away."},
	StapleGun: {Danger, "work is stapled",
		"A staple gun drives through a finger: keep hands from the line of fire and wear eye protection; disconnect it before clearing a jam."},
	SteamBurns: {Danger, "fullness may be steamed away",
		"Steam and irons burn, and some foams and piles do not bear heat: try a scrap."},

	MeasureCloth: {Order, "panels are planned on a cloth",
		"Measure the piece and the cloth once more before the first cut: width between the selvedges, flaws, and which way is up."},
	MeasureRepeats: {Order, "the cloth has a pattern",
		"Measure the repeats on the cloth itself at several places: printed repeats run out, and plans and charts are exact."},
	LeftOut: {Remark, "there are more notes than an answer lists",
		"{count, plural, one {# more note is} other {# more notes are}} left out here"},
}
