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
