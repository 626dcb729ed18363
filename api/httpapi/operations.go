package httpapi

import (
	"net/http"
	"slices"

	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
	"github.com/bridletie/bridletie/service/job"
)

// operations are all operations of the contract. Everything that is said of one outside
// its own files stands in its row, once.
func operations() []row {
	return slices.Concat(cuttingPlans(), charts(), inside(), wholeJobs(), served())
}

// cuttingPlans plan the cutting of panels, or say what a piece takes.
func cuttingPlans() []row {
	return []row{
		(&operation[service.YardageRequest, service.YardageAnswer]{
			id: "yardage", path: "/v1/yardage", lane: laneHeavy, size: usual, soFar: true,
			read: from(wire.YardageIn), faults: service.YardageFaults, fields: service.YardageFieldFaults,
			answer: (*Server).plan, after: (*Server).solved,
			write: to(wire.YardageOut), picture: draws(drawing.PlanPicture), text: drawing.PlanText,
		}).row(),
		(&operation[service.CheckRequest, service.CheckAnswer]{
			id: "yardageCheck", path: "/v1/yardage/check", lane: laneHeavy, size: whole,
			read: from(wire.CheckIn), faults: service.CheckFaults, fields: service.CheckFieldFaults,
			answer: (*Server).check, after: func(s *Server, a *service.CheckAnswer) error { return s.solved(a.Engine) },
			write: to(wire.CheckOut), picture: draws(drawing.CheckPicture), text: drawing.CheckText,
		}).row(),
		(&operation[service.CompareRequest, service.CompareAnswer]{
			id: "yardageCompare", path: "/v1/yardage/compare", command: "compare", lane: laneHeavy, size: whole,
			read: from(wire.CompareIn), faults: service.CompareFaults, fields: service.CompareFaults,
			answer: (*Server).compare,
			write:  to(wire.CompareOut), picture: draws(drawing.ComparePicture), text: drawing.CompareText, lines: (*Server).compareLines,
		}).row(),
		(&operation[service.CuttingListRequest, service.CuttingListAnswer]{
			id: "cuttingList", path: "/v1/cutting-list", lane: laneShort, size: usual,
			read: from(wire.CuttingListIn), prepare: service.PrepareCuttingList, fields: service.CuttingListFieldFaults,
			write: to(wire.CuttingListOut), picture: draws(drawing.CuttingListPicture), text: drawing.CuttingListText,
		}).row(),
		(&operation[service.EstimateRequest, service.EstimateAnswer]{
			id: "estimate", path: "/v1/estimate", lane: laneHeavy, size: usual,
			read: from(wire.EstimateIn), faults: service.EstimateFaults, fields: service.EstimateFieldFaults,
			answer: shared(service.Estimate),
			write:  to(wire.EstimateOut), text: drawing.EstimateText,
		}).row(),
	}
}

// charts are drawn on the cloth, and cut from it.
func charts() []row {
	return []row{
		(&operation[service.ButtoningRequest, service.ButtoningAnswer]{
			id: "buttoning", path: "/v1/buttoning", lane: laneLight, size: usual,
			read: from(wire.ButtoningIn), prepare: service.PrepareButtoning, fields: service.ButtoningFieldFaults,
			write: to(wire.ButtoningOut), picture: draws(drawing.ButtoningPicture), text: drawing.ButtoningText,
		}).row(),
		(&operation[service.PipingRequest, service.PipingAnswer]{
			id: "piping", path: "/v1/piping", lane: laneLight, size: whole,
			read: from(wire.PipingIn), prepare: service.PreparePiping, fields: service.PipingFieldFaults,
			write: to(wire.PipingOut), picture: draws(drawing.PipingPicture), text: drawing.PipingText,
		}).row(),
		(&operation[service.RepeatRequest, service.RepeatAnswer]{
			id: "repeat", path: "/v1/repeat", lane: laneShort, size: usual,
			read: from(wire.RepeatIn), faults: service.RepeatFaults, fields: service.RepeatFaults,
			answer: atOnce(service.Repeat),
			write:  to(wire.RepeatOut), picture: draws(drawing.RepeatPicture), text: drawing.RepeatText,
		}).row(),
		(&operation[service.ReliefRequest, service.ReliefAnswer]{
			id: "reliefCuts", path: "/v1/relief-cuts", lane: laneShort, size: usual,
			read: from(wire.ReliefIn), faults: service.ReliefFaults, fields: service.ReliefFaults,
			answer: always(service.Relief),
			write:  to(wire.ReliefOut), picture: draws(drawing.ReliefPicture), text: drawing.ReliefText,
		}).row(),
		(&operation[service.PleatsRequest, service.PleatsAnswer]{
			id: "pleats", path: "/v1/pleats", lane: laneShort, size: usual,
			read: from(wire.PleatsIn), faults: service.PleatsFaults, fields: service.PleatsFieldFaults,
			answer: always(service.Pleats),
			write:  to(wire.PleatsOut), picture: draws(drawing.PleatsPicture), text: drawing.PleatsText,
		}).row(),
	}
}

// inside are about what is beneath the cover, and whether all of it may be supplied.
func inside() []row {
	return []row{
		(&operation[service.WaddingRequest, service.WaddingAnswer]{
			id: "wadding", path: "/v1/wadding", lane: laneLight, size: usual,
			read: from(wire.WaddingIn), prepare: service.PrepareWadding, fields: service.WaddingFieldFaults,
			write: to(wire.WaddingOut), picture: draws(drawing.WaddingPicture), text: drawing.WaddingText,
		}).row(),
		(&operation[service.FoundationRequest, service.FoundationAnswer]{
			id: "foundation", path: "/v1/foundation", lane: laneLight, size: usual,
			read: from(wire.FoundationIn), prepare: service.PrepareFoundation, fields: service.FoundationFieldFaults,
			write: to(wire.FoundationOut), picture: draws(drawing.FoundationPicture), text: drawing.FoundationText,
		}).row(),
		(&operation[service.FoamRequest, service.FoamAnswer]{
			id: "foam", path: "/v1/foam", lane: laneLight, size: large,
			read: from(wire.FoamIn), prepare: service.PrepareFoam, fields: service.FoamFieldFaults,
			write: to(wire.FoamOut), picture: draws(drawing.FoamPicture), text: drawing.FoamText,
		}).row(),
		(&operation[service.FireRequest, service.FireAnswer]{
			id: "fireCheck", path: "/v1/fire-check", lane: laneShort, size: usual,
			read: from(wire.FireIn), faults: service.FireFaults, fields: service.FireFieldFaults,
			answer: (*Server).fireCheck,
			write:  to(wire.FireOut), picture: draws(drawing.FirePicture), text: drawing.FireText,
		}).row(),
	}
}

// wholeJobs take a whole job.
func wholeJobs() []row {
	return []row{
		(&operation[job.Request, job.Answer]{
			id: "job", path: "/v1/job", lane: laneHeavy, size: large,
			read: from(wire.JobIn), faults: job.Faults, fields: job.FieldFaults,
			answer: (*Server).job, after: (*Server).jobUnanswered,
			write: to(wire.JobOut), picture: draws(drawing.JobSheetOf), text: drawing.JobText, drawings: jobDrawings,
		}).row(),
	}
}

// served are the operations without a request in JSON: documents, pages, the state of
// the service, and lines of requests.
func served() []row {
	get := func(id, path string, lane lane, answer func(*Server, *exchange) (*reply, error)) row {
		return row{id: id, method: http.MethodGet, path: path, lane: lane, reply: answer}
	}
	return []row{
		{id: "batch", method: http.MethodPost, path: "/v1/batch", lane: laneFree, stream: (*Server).batch},
		get("furniture", "/v1/furniture", laneShort, (*Server).document),
		get("furnitureKind", "/v1/furniture/{kind}", laneShort, (*Server).document),
		get("furniturePicture", "/v1/furniture/{kind}/picture", laneShort, (*Server).document),
		get("fireRules", "/v1/fire-rules", laneShort, (*Server).document),
		get("specYaml", "/openapi.yaml", laneFree, (*Server).contractHere),
		get("specJson", "/openapi.json", laneFree, (*Server).contractHere),
		get("quoteScript", "/quote.js", laneFree, (*Server).page),
		get("quoteScriptVersion", "/quote/{version}/quote.js", laneFree, (*Server).page),
		get("demoPage", "/demo/{page}", laneFree, (*Server).page),
		get("demoAsset", "/demo/assets/{file}", laneFree, (*Server).page),
		get("guideHome", "/guide", laneFree, (*Server).page),
		get("guidePage", "/guide/{page}", laneFree, (*Server).page),
		get("guideAsset", "/guide/assets/{file}", laneFree, (*Server).page),
		get("docsPage", "/docs", laneFree, (*Server).page),
		get("docsAsset", "/docs/assets/{file}", laneFree, (*Server).page),
		get("livez", "/livez", laneFree, (*Server).livez),
		get("readyz", "/readyz", laneFree, (*Server).readyz),
		get("problem", "/problems/{name}", laneFree, (*Server).problemPage),
	}
}
