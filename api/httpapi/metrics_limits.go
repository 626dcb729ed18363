package httpapi

import (
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"github.com/bridletie/bridletie/api/admit"
)

// gateMetrics are the metrics of admission: lanes, quotas, keys and cache.
type gateMetrics struct {
	waits     *prometheus.HistogramVec
	deadlines prometheus.Counter
	limited   *prometheus.CounterVec
	denied    prometheus.Counter
	reused    *prometheus.CounterVec
}

// newGateMetrics registers the metrics.
func newGateMetrics(registry prometheus.Registerer) *gateMetrics {
	m := &gateMetrics{
		waits: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name: "bridletie_lane_wait_seconds", Help: "How long a turn was waited for.",
			Buckets: []float64{.001, .005, .025, .1, .25, 1, 2.5, 5, 10},
		}, []string{"lane"}),
		deadlines: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "bridletie_deadlines_total", Help: "Answers that took longer than an answer may.",
		}),
		limited: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "bridletie_limited_total", Help: "Requests refused because a quota was used, by who called and by the quota.",
		}, []string{"caller", "policy"}),
		denied: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "bridletie_denied_total", Help: "Requests refused for want of a key that is known.",
		}),
		reused: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "bridletie_answers_total", Help: "Answers that might have been made before: made, joined while another made them, kept.",
		}, []string{"how"}),
	}
	registry.MustRegister(m.waits, m.deadlines, m.limited, m.denied, m.reused)
	return m
}

// lane creates a lane and registers its metrics.
func (m *gateMetrics) lane(registry prometheus.Registerer, name string, slots, queue int, wait time.Duration) *admit.Lane {
	waits := m.waits.WithLabelValues(name)
	l := admit.NewLane(slots, queue, wait, func(d time.Duration) { waits.Observe(d.Seconds()) })
	label := prometheus.Labels{"lane": name}
	gauge := func(name, help string, of func(admit.LaneState) int) {
		registry.MustRegister(prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: name, Help: help, ConstLabels: label},
			func() float64 { return float64(of(l.State())) }))
	}
	gauge("bridletie_lane_slots", "Answers that may be worked on at the same time.", func(s admit.LaneState) int { return s.Slots })
	gauge("bridletie_lane_busy", "Answers worked on.", func(s admit.LaneState) int { return s.Busy })
	gauge("bridletie_lane_queue_slots", "Requests that may wait for a turn.", func(s admit.LaneState) int { return s.Queue })
	gauge("bridletie_lane_queued", "Requests waiting for a turn.", func(s admit.LaneState) int { return s.Waiting })
	for reason, of := range map[string]func(admit.LaneState) uint64{
		"full":   func(s admit.LaneState) uint64 { return s.Full },
		"waited": func(s admit.LaneState) uint64 { return s.Late },
	} {
		registry.MustRegister(prometheus.NewCounterFunc(prometheus.CounterOpts{
			Name: "bridletie_sheds_total", Help: "Requests sent away because the service was full.",
			ConstLabels: prometheus.Labels{"lane": name, "reason": reason},
		}, func() float64 { return float64(of(l.State())) }))
	}
	return l
}

// room registers the capacity of the cache and its used bytes.
func (m *gateMetrics) room(registry prometheus.Registerer, bytes int64, taken func() uint64) {
	most := prometheus.NewGauge(prometheus.GaugeOpts{Name: "bridletie_kept_max_bytes", Help: "Room for answers that are kept."})
	most.Set(float64(bytes))
	registry.MustRegister(most, prometheus.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "bridletie_kept_bytes", Help: "Bytes of answers that are kept.",
	}, func() float64 { return float64(taken()) }))
}
