package service

import (
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// EstimateFaults are everything wrong with the request; see PrepareEstimate.
func EstimateFaults(req EstimateRequest) fault.List {
	_, wrong := PrepareEstimate(req, 1)
	return wrong
}

// tooWide says why the piece cannot be cut from the cloth at a corner.
func (e *estimator) tooWide(k laid) fault.List {
	var l fault.List
	if bad := panel.ClothFaults(k.panels, k.on, k.sold.Bolt, fault.Path{}).Faults(); len(bad) > 0 {
		at := fault.At("clothWidth")
		if e.req.Cloth != nil {
			at = fault.At("cloth").Field("width")
		}
		l.Add(at, bad[0].Code, k.on.Width.String(), bad[0].Detail, "a wider cloth")
	}
	return l
}

// EstimateFieldFaults are what is wrong with the fields, each by itself and with
// one another.
func EstimateFieldFaults(req EstimateRequest) fault.List {
	root := fault.Path{}
	l := req.Piece.Faults(root)
	if c := req.Cloth; c != nil {
		l.Append(c.Faults(root.Field("cloth")))
		l.Append(c.Sold.Faults(root.Field("cloth")))
	} else {
		req.Shop.Check(&l, root.Field("clothWidth"), "the usable width", practice.UsualCloth)
	}
	band, labour := req.Band, req.Labour
	if band != nil && band.High.Cmp(band.Low.Money) < 0 {
		l.Add(root.Field("price").Field("high"), fault.TooSmall, band.High.Text(), "the band ends below where it begins", "at least "+band.Low.Text())
	}
	if band != nil && labour != nil && band.Low.Code() != labour.Hour.Code() {
		l.Add(root.Field("labour").Field("currency"), fault.NotAllowed, labour.Hour.Code(), "the cloth is priced in another currency", "give both in "+band.Low.Code())
	}
	return l
}

func estimateNotes(a *EstimateAnswer) (warnings, cautions []string) {
	warnings = append(warnings, "this is an estimate and no quotation: the piece must be measured and the cloth chosen")
	if a.Order.High == 0 {
		warnings = append(warnings, "no plan was found for this piece on such cloth")
	}
	warnings = append(warnings, "hours are those of an example preset; every shop has its own")
	if a.Price != nil {
		text := "the price has"
		switch {
		case a.Request.Labour == nil:
			text += " the cloth only"
		case a.Request.Band == nil:
			text += " the work only"
		default:
			text += " the cloth and the work"
		}
		warnings = append(warnings, text+", not fillings, linings and sundries")
	}
	return warnings, []string{"Whether a cloth and its fillings may be supplied for this piece is a matter of the fire rules where it is supplied."}
}
