package httpapi

import (
	"net/http"
	"runtime"
	"strconv"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/service"
)

// metrics are the metrics of one server, in its own registry.
type metrics struct {
	registry *prometheus.Registry
	requests *prometheus.CounterVec
	seconds  *prometheus.HistogramVec
	inFlight prometheus.Gauge
	panics   prometheus.Counter
	work     prometheus.Counter
	gap      prometheus.Histogram
	proven   *prometheus.CounterVec

	lines         *prometheus.CounterVec
	linesInFlight prometheus.Gauge
}

func newMetrics() *metrics {
	m := &metrics{
		registry: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "bridletie_requests_total", Help: "Answers by operation and class of status.",
		}, []string{"operation", "class"}),
		seconds: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name: "bridletie_request_duration_seconds", Help: "Time from the request's header to the answer's end.",
			Buckets: []float64{.001, .005, .01, .05, .1, .25, .5, 1, 2.5, 5, 10, 30},
		}, []string{"operation"}),
		inFlight: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "bridletie_requests_in_flight", Help: "Requests being answered.",
		}),
		panics: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "bridletie_panics_total", Help: "Panics that were turned into a 500.",
		}),
		work: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "bridletie_work_units_total", Help: "Units of search used by yardage answers.",
		}),
		gap: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name: "bridletie_plan_gap_ratio", Help: "How far plans lie above their bound, as a share of it.",
			Buckets: []float64{0, .005, .01, .02, .03, .05, .075, .1, .15, .25, .5},
		}),
		proven: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "bridletie_plans_total", Help: "Yardage answers, by whether no shorter plan exists.",
		}, []string{"proven"}),
		lines: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "bridletie_batch_lines_total", Help: "Lines of batches answered, by operation and class of status.",
		}, []string{"operation", "class"}),
		linesInFlight: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "bridletie_batch_lines_in_flight", Help: "Lines of batches being worked on.",
		}),
	}
	build := prometheus.NewGauge(prometheus.GaugeOpts{
		Name: "bridletie_build_info", Help: "Always 1; the labels say which engine this is, and which Go it was built with.",
		ConstLabels: prometheus.Labels{"engine": service.EngineVersion, "goversion": runtime.Version()},
	})
	build.Set(1)
	m.registry.MustRegister(m.requests, m.seconds, m.inFlight, m.panics, m.work, m.gap, m.proven, m.lines, m.linesInFlight, build,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// answered counts a response.
func (m *metrics) answered(operation string, status int, took time.Duration) {
	m.requests.WithLabelValues(operation, strconv.Itoa(status/100)+"xx").Inc()
	m.seconds.WithLabelValues(operation).Observe(took.Seconds())
}

// line counts a response line of a batch.
func (m *metrics) line(operation string, status int) {
	m.lines.WithLabelValues(operation, strconv.Itoa(status/100)+"xx").Inc()
}

// solved counts a plan.
func (m *metrics) solved(ans *service.YardageAnswer) {
	m.work.Add(float64(max(ans.Result.Work.Used, 0)))
	m.gap.Observe(wire.Gap(ans.Result.Needed(), ans.Result.Bound) / 100)
	m.proven.WithLabelValues(strconv.FormatBool(ans.Result.Proven)).Inc()
}

func (m *metrics) handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{})
}
