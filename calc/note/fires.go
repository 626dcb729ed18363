package note

// Fire checks.
const (
	FireRuleSays   Code = "fire-rule-says"
	FireVerdict    Code = "fire-verdict-of-papers"
	FireLater      Code = "fire-rules-older"
	FireFromMemory Code = "fire-rules-from-memory"
	FireInferred   Code = "fire-rules-inferred"
	FireNoRule     Code = "fire-no-rule-for-layer"
	FireNotCounted Code = "fire-exemption-not-shown"
	FireFederal    Code = "fire-federal-only"
	FireStateOnly  Code = "fire-chemicals-only"
)

var fires = table{
	FireRuleSays: {Danger, "a rule that applies has a caution of its own",
		"{says}"},
	FireVerdict: {Danger, "a fire check is made",
		"A verdict is about papers. It does not say how this piece will burn."},
	FireLater: {Danger, "the day asked about is later than the rules were looked up",
		"The day asked about is later than {asAt}, when the rules were last looked up: check what has changed since."},
	FireFromMemory: {Danger, "a rule that applies was not read",
		"Some of these rules are held from memory; they neither forbid nor exempt, and must be looked up."},
	FireInferred: {Danger, "a rule that applies is inferred",
		"Some of these rules are inferred from what was read; their source says from what."},
	FireNoRule: {Danger, "no rule speaks of a layer",
		"No rule held here speaks of the layer {layer}: ask the enforcing authority."},
	FireNotCounted: {Remark, "an exemption may apply",
		"Not counted, since what it needs is not shown: {title} ({instrument}; rule {rule})."},
	FireFederal: {Danger, "only federal rules are run",
		"Only the federal rules are run: some States and cities have rules of their own, on flame-retardant chemicals among others."},
	FireStateOnly: {Danger, "of a State only one rule is held",
		"Of this State only its rule on flame-retardant chemicals is held; ask about others, and about city rules."},
}
