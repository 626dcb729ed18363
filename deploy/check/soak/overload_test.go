//go:build linux

package soak

import (
	"fmt"
	"net/http"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

const ceiling = 256 << 20 // bytes that a replica is told to stay below

// lightRate is how often a light operation is asked meanwhile.
const lightRate = 40

// seconds of a phase; longer with BRIDLETIE_SOAK_BARS, where times count.
func seconds(n int) time.Duration {
	if os.Getenv("BRIDLETIE_SOAK_BARS") == "" {
		n = (n + 1) / 2
	}
	return time.Duration(n) * time.Second
}

// counted holds the replica's own counts against what was seen from outside.
func counted(t *testing.T, r *replica, operation string, all []reply) {
	t.Helper()
	figures := r.figures()
	seen := map[string]int{}
	for _, a := range all {
		if a.status == 0 {
			t.Errorf("no answer: %v", a.err)
			return
		}
		seen[fmt.Sprintf("%dxx", a.status/100)]++
	}
	for _, class := range []string{"2xx", "4xx", "5xx"} {
		if n := int(figures[`bridletie_requests_total{class="`+class+`",operation="`+operation+`"}`]); n != seen[class] {
			t.Errorf("%s: the metrics count %d of %s, %d were sent", operation, n, class, seen[class])
		}
	}
}

// rounds measures until every bar is kept, at most three times: what else the
// machine does makes times longer, never shorter. Without BRIDLETIE_SOAK_BARS
// there is one round.
func rounds(t *testing.T, measure func(t *testing.T) []verdict) {
	t.Helper()
	most := 3
	if os.Getenv("BRIDLETIE_SOAK_BARS") == "" {
		most = 1
	}
	for n := 1; ; n++ {
		t.Logf("round %d", n)
		all := measure(t)
		missed := slices.ContainsFunc(all, func(v verdict) bool { return !v.kept })
		if missed && n < most && !t.Failed() {
			for _, v := range all {
				t.Logf("%v: %s", v.kept, v.what)
			}
			continue
		}
		for _, v := range all {
			bar(t, v.kept, "%s", v.what)
		}
		return
	}
}

// verdict is whether a bar was kept.
type verdict struct {
	kept bool
	what string
}

func is(kept bool, format string, args ...any) verdict {
	return verdict{kept, fmt.Sprintf(format, args...)}
}

// Ten times as many plans as can be made: as many are made as ever, the others
// are sent away at once, and light operations hardly notice.
func TestTooManyPlans(t *testing.T) {
	r := newReplica(t, "full", "--cache", "0", "--memory", fmt.Sprint(ceiling))
	witness := newReplica(t, "witness", "--cache", "0")
	rounds(t, func(t *testing.T) []verdict { return tooManyPlans(t, r, witness) })
	if _, most := r.memory(); most > ceiling {
		t.Errorf("%d MiB of memory, told to stay below %d", most>>20, ceiling>>20)
	}
}

// tooManyPlans asks the witness, which has nothing else to do, for the same light
// operation at the same time: what makes that slow is the machine and whoever
// asks.
func tooManyPlans(t *testing.T, r, witness *replica) []verdict {
	t.Helper()
	base := "http://" + r.addr
	heavy, light := demo(t, "/v1/yardage", "wing-chair.json"), demo(t, "/v1/repeat", "curtains-repeat.json")
	plans, lights := keepAlive(500), keepAlive(100)
	defer plans.CloseIdleConnections()
	defer lights.CloseIdleConnections()
	for range 20 {
		send(lights, base, light)
		send(lights, "http://"+witness.addr, light)
	}
	idle, _ := openLoop(lights, base, light, lightRate, seconds(6))
	alone := closedLoop(base, heavy, 2, seconds(6)) // one in work, one waiting
	peak := float64(len(with(alone, 200))) / seconds(6).Seconds()
	t.Logf("idle: light p50 %v, p99 %v; peak: %.1f plans a second", quantile(idle, 0.5), quantile(idle, 0.99), peak)
	if peak == 0 || len(with(idle, 200)) != len(idle) {
		t.Fatal("not all answered, with nobody else there")
	}
	from := r.logged()
	var meanwhile, elsewhere []reply
	var group sync.WaitGroup
	group.Go(func() { elsewhere, _ = openLoop(lights, "http://"+witness.addr, light, lightRate, seconds(12)) })
	group.Go(func() { meanwhile, _ = openLoop(lights, base, light, lightRate, seconds(12)) })
	all, rate := openLoop(plans, base, heavy, 10*peak, seconds(12))
	group.Wait()
	inside := r.times(from)
	back := recovers(t, base, heavy, light)
	good, shed := with(all, 200), with(all, 503)
	made := float64(len(good)) / seconds(12).Seconds()
	_, most := r.memory()
	t.Logf("offered %.0f plans a second (sent late by p99 %v): %d made, %d sent away, %d else; memory at most %d MiB", rate,
		quantileOf(all, 0.99, func(r reply) time.Duration { return r.late }), len(good), len(shed), len(all)-len(good)-len(shed), most>>20)
	t.Logf("by the replica's own clock: sent away in p99 %v, light p99 %v", inside.quantile("yardage 503", 0.99), inside.quantile("repeat 200", 0.99))
	if len(good)+len(shed) != len(all) || len(shed) == 0 {
		t.Error("an answer that is neither a plan nor a 503, or none sent away")
	}
	for _, s := range shed {
		if s.retry < 1 || s.retry > 30 {
			t.Fatalf("sent away with Retry-After %d", s.retry)
		}
	}
	if n := len(meanwhile) - len(with(meanwhile, 200)); n > 0 {
		t.Errorf("%d of %d light requests failed", n, len(meanwhile))
	}
	return []verdict{
		is(made >= 0.9*peak, "%.1f plans a second are %.0f %% of the peak, want 90", made, 100*made/peak),
		is(quantile(shed, 0.99) < 20*time.Millisecond+quantile(elsewhere, 0.99), "sent away in p50 %v, p99 %v, want 20ms more than the %v of a replica at its side that has nothing else to do",
			quantile(shed, 0.5), quantile(shed, 0.99), quantile(elsewhere, 0.99)),
		is(quantile(meanwhile, 0.99) <= 3*max(quantile(idle, 0.99), quantile(elsewhere, 0.99)), "light p50 %v, p99 %v, want 3 × %v as when idle, or 3 × %v as at its side",
			quantile(meanwhile, 0.5), quantile(meanwhile, 0.99), quantile(idle, 0.99), quantile(elsewhere, 0.99)),
		is(back < 2*time.Second, "all answered again after %v, want 2s", back.Round(time.Millisecond)),
	}
}

// recovers is how long it takes until a plan and a light operation are answered,
// and then ten more of each.
func recovers(t *testing.T, base string, asks ...ask) time.Duration {
	t.Helper()
	begun, client := time.Now(), keepAlive(1)
	defer client.CloseIdleConnections()
	var since time.Duration
	for run := 0; run < 10; {
		at := time.Since(begun)
		if at > 20*time.Second {
			t.Error("no recovery")
			return at
		}
		good := true
		for _, a := range asks {
			good = good && send(client, base, a).status == http.StatusOK
		}
		switch {
		case !good:
			run = 0
		case run == 0:
			since = time.Since(begun)
			run = 1
		default:
			run++
		}
	}
	return since
}

// cushions is a request of a light operation that takes some milliseconds.
func cushions(n int) ask {
	var items []string
	for i := range n {
		items = append(items, fmt.Sprintf(`{"id":"C%d","place":"seat","foam":"F","thickness":"10 cm","shape":{"form":"rectangle","across":"%d mm","along":"%d mm"}}`,
			i, 400+i*37%300, 450+i*53%250))
	}
	return ask{"/v1/foam", []byte(`{"kerf":"3 mm","foams":[{"id":"F","density":"35 kg/m3"}],"sheets":[{"id":"S","foam":"F","across":"1200 mm","along":"2000 mm","thickness":"100 mm"}],"items":[` +
		strings.Join(items, ",") + `]}`)}
}

// Ten times as much light work as there are cores for. Those who wait for a turn
// in vain are told so when the wait is up.
func TestTooManyLightOnes(t *testing.T) {
	r := newReplica(t, "only", "--cache", "0", "--memory", fmt.Sprint(ceiling))
	rounds(t, func(t *testing.T) []verdict { return tooManyLightOnes(t, r) })
	if _, most := r.memory(); most > ceiling {
		t.Errorf("%d MiB of memory, told to stay below %d", most>>20, ceiling>>20)
	}
}

func tooManyLightOnes(t *testing.T, r *replica) []verdict {
	t.Helper()
	base, light := "http://"+r.addr, cushions(150)
	closedLoop(base, light, 8, time.Second)
	alone := closedLoop(base, light, 8, seconds(6))
	peak := float64(len(with(alone, 200))) / seconds(6).Seconds()
	t.Logf("peak: %.0f a second, p50 %v", peak, quantile(alone, 0.5))
	client := keepAlive(1000)
	defer client.CloseIdleConnections()
	from := r.logged()
	all, rate := openLoop(client, base, light, 10*peak, seconds(10))
	inside := r.times(from)
	back := recovers(t, base, light)
	good, shed := with(all, 200), with(all, 503)
	made := float64(len(good)) / max(seconds(10).Seconds(), last(all).Seconds())
	_, most := r.memory()
	t.Logf("offered %.0f a second (sent late by p99 %v): %d answered, %d sent away, %d else; memory at most %d MiB", rate,
		quantileOf(all, 0.99, func(r reply) time.Duration { return r.late }), len(good), len(shed), len(all)-len(good)-len(shed), most>>20)
	t.Logf("by the replica's own clock: sent away in p50 %v, p99 %v", inside.quantile("foam 503", 0.5), inside.quantile("foam 503", 0.99))
	if len(good)+len(shed) != len(all) {
		t.Error("an answer that is neither right nor a 503")
	}
	return []verdict{
		is(made >= 0.9*peak, "%.0f answers a second are %.0f %% of the peak, want 90", made, 100*made/peak),
		is(back < 2*time.Second, "answered again after %v, want 2s", back.Round(time.Millisecond)),
	}
}

func last(all []reply) (at time.Duration) {
	for _, r := range all {
		at = max(at, r.at)
	}
	return at
}

// The counts of the metrics are those of the clients, whatever was sent away.
func TestCountsAgree(t *testing.T) {
	r := newReplica(t, "only", "--cache", "0")
	base := "http://" + r.addr
	client := keepAlive(64)
	defer client.CloseIdleConnections()
	plans, _ := openLoop(client, base, demo(t, "/v1/yardage", "wing-chair.json"), 100, seconds(4))
	counted(t, r, "yardage", plans)
	wrong, _ := openLoop(client, base, ask{"/v1/repeat", []byte(`{"cloth":{}}`)}, 100, seconds(2))
	counted(t, r, "repeat", wrong)
	figures := r.figures()
	sheds := figures[`bridletie_sheds_total{lane="heavy",reason="full"}`] + figures[`bridletie_sheds_total{lane="heavy",reason="waited"}`]
	if int(sheds) != len(with(plans, 503)) || len(with(wrong, 422)) != len(wrong) {
		t.Errorf("%.0f sheds counted, %d seen; %d of %d refused", sheds, len(with(plans, 503)), len(with(wrong, 422)), len(wrong))
	}
	t.Logf("%d plans, %d sent away, %d refused: all counted", len(with(plans, 200)), len(with(plans, 503)), len(wrong))
}
