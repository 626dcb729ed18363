package check

import (
	"strings"
	"testing"
	"time"

	appsv1 "k8s.io/api/apps/v1"
	autoscalingv2 "k8s.io/api/autoscaling/v2"
	batchv1 "k8s.io/api/batch/v1"
	corev1 "k8s.io/api/core/v1"
	networkingv1 "k8s.io/api/networking/v1"
	policyv1 "k8s.io/api/policy/v1"
	"k8s.io/apimachinery/pkg/api/resource"
	"k8s.io/apimachinery/pkg/labels"
	"sigs.k8s.io/kustomize/api/krusty"
	"sigs.k8s.io/kustomize/kyaml/filesys"
	"sigs.k8s.io/yaml"
)

// objects are what one overlay makes.
type objects struct {
	namespace  corev1.Namespace
	account    corev1.ServiceAccount
	config     corev1.ConfigMap
	deployment appsv1.Deployment
	service    corev1.Service
	hpa        autoscalingv2.HorizontalPodAutoscaler
	pdb        policyv1.PodDisruptionBudget
	network    networkingv1.NetworkPolicy
	job        batchv1.Job
	kinds      []string
}

// into is where an object of that kind goes.
func (o *objects) into(kind string) any {
	return map[string]any{
		"v1/Namespace": &o.namespace, "v1/ServiceAccount": &o.account, "v1/ConfigMap": &o.config, "v1/Service": &o.service,
		"apps/v1/Deployment": &o.deployment, "autoscaling/v2/HorizontalPodAutoscaler": &o.hpa,
		"policy/v1/PodDisruptionBudget": &o.pdb, "networking.k8s.io/v1/NetworkPolicy": &o.network, "batch/v1/Job": &o.job,
	}[kind]
}

// built is what kustomize makes of a folder, each object read strictly: an unknown
// field, a wrong type, a name that stands twice and a bad quantity are errors.
func built(t *testing.T, folder string) *objects {
	t.Helper()
	resources, err := krusty.MakeKustomizer(krusty.MakeDefaultOptions()).Run(filesys.MakeFsOnDisk(), "../kubernetes/"+folder)
	if err != nil {
		t.Fatal(err)
	}
	var o objects
	for _, r := range resources.Resources() {
		text, err := r.AsYAML()
		if err != nil {
			t.Fatal(err)
		}
		kind := strings.TrimPrefix(r.GetGvk().Group+"/", "/") + r.GetGvk().Version + "/" + r.GetKind()
		to := o.into(kind)
		if to == nil {
			t.Fatalf("%s: no test knows %s", folder, kind)
		}
		if err := yaml.UnmarshalStrict(text, to); err != nil {
			t.Errorf("%s, %s: %v", folder, kind, err)
		}
		if r.GetNamespace() != "bridletie" && r.GetKind() != "Namespace" {
			t.Errorf("%s, %s: namespace %q", folder, kind, r.GetNamespace())
		}
		o.kinds = append(o.kinds, kind)
	}
	return &o
}

// Strict reading finds what it is for.
func TestStrictReadingBites(t *testing.T) {
	for _, bad := range []string{
		"apiVersion: apps/v1\nkind: Deployment\nspec: {replica: 2}",
		"apiVersion: apps/v1\nkind: Deployment\nspec: {replicas: two}",
		"apiVersion: apps/v1\nkind: Deployment\nspec: {replicas: 2, replicas: 3}",
		"kind: Deployment\nspec: {template: {spec: {containers: [{resources: {limits: {memory: 1Gib}}}]}}}",
	} {
		if err := yaml.UnmarshalStrict([]byte(bad), &appsv1.Deployment{}); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
}

func TestOverlays(t *testing.T) {
	for folder, replicas := range map[string]int32{"base": 2, "overlays/production": 3} {
		o := built(t, folder)
		if len(o.kinds) != 8 {
			t.Fatalf("%s: %q", folder, o.kinds)
		}
		if o.namespace.Labels["pod-security.kubernetes.io/enforce"] != "restricted" {
			t.Errorf("%s: the namespace does not enforce the restricted profile", folder)
		}
		if a := o.account.AutomountServiceAccountToken; a == nil || *a {
			t.Errorf("%s: the account's token is mounted", folder)
		}
		d := o.deployment.Spec
		restricted(t, folder, d.Template.Spec)
		rolling(t, folder, o)
		memory(t, folder, d.Template.Spec.Containers[0], o.config.Data["GOMEMLIMIT"])
		selects := labels.SelectorFromSet(d.Selector.MatchLabels)
		if len(d.Selector.MatchLabels) == 0 || !selects.Matches(labels.Set(d.Template.Labels)) {
			t.Errorf("%s: the deployment selects %v, its pods are %v", folder, d.Selector.MatchLabels, d.Template.Labels)
		}
		for what, set := range map[string]map[string]string{
			"service": o.service.Spec.Selector, "budget": o.pdb.Spec.Selector.MatchLabels, "network": o.network.Spec.PodSelector.MatchLabels,
		} {
			if len(set) == 0 || !labels.SelectorFromSet(set).Matches(labels.Set(d.Template.Labels)) {
				t.Errorf("%s: the %s selects %v", folder, what, set)
			}
		}
		scaled(t, folder, o, replicas)
		closed(t, folder, o)
	}
}

// restricted is the restricted profile of the Pod Security Standards, and a root
// that nobody writes.
func restricted(t *testing.T, where string, p corev1.PodSpec) {
	t.Helper()
	s := p.SecurityContext
	if s == nil || s.RunAsNonRoot == nil || !*s.RunAsNonRoot || s.RunAsUser == nil || *s.RunAsUser == 0 ||
		s.SeccompProfile == nil || s.SeccompProfile.Type != corev1.SeccompProfileTypeRuntimeDefault {
		t.Errorf("%s: pod %+v", where, s)
	}
	if p.HostNetwork || p.HostPID || p.HostIPC || p.AutomountServiceAccountToken == nil || *p.AutomountServiceAccountToken {
		t.Errorf("%s: the pod shares the host's or mounts a token", where)
	}
	if len(p.Containers) != 1 || len(p.InitContainers) != 0 {
		t.Fatalf("%s: %d containers", where, len(p.Containers))
	}
	c := p.Containers[0].SecurityContext
	if c == nil || c.AllowPrivilegeEscalation == nil || *c.AllowPrivilegeEscalation || c.ReadOnlyRootFilesystem == nil || !*c.ReadOnlyRootFilesystem ||
		c.Capabilities == nil || len(c.Capabilities.Drop) != 1 || c.Capabilities.Drop[0] != "ALL" || len(c.Capabilities.Add) > 0 {
		t.Errorf("%s: container %+v", where, c)
	}
	if p.Containers[0].Image == "" || strings.HasSuffix(p.Containers[0].Image, ":latest") || !strings.Contains(p.Containers[0].Image, ":") {
		t.Errorf("%s: image %q has no version", where, p.Containers[0].Image)
	}
}

// rolling is a restart that nobody notices: one more before one less, and the time
// to end what is under way.
func rolling(t *testing.T, where string, o *objects) {
	t.Helper()
	r := o.deployment.Spec.Strategy.RollingUpdate
	if r == nil || r.MaxUnavailable.IntValue() != 0 || r.MaxSurge.IntValue() < 1 {
		t.Errorf("%s: %+v", where, r)
	}
	p := o.deployment.Spec.Template.Spec
	c := p.Containers[0]
	if c.Lifecycle == nil || c.Lifecycle.PreStop == nil || c.Lifecycle.PreStop.Sleep == nil || p.TerminationGracePeriodSeconds == nil {
		t.Fatalf("%s: no preStop sleep or no grace", where)
	}
	needed := time.Duration(c.Lifecycle.PreStop.Sleep.Seconds)*time.Second + setting(t, o, "BRIDLETIE_DRAIN") + setting(t, o, "BRIDLETIE_GRACE") + 5*time.Second
	if given := time.Duration(*p.TerminationGracePeriodSeconds) * time.Second; given < needed {
		t.Errorf("%s: %v to stop, which takes up to %v", where, given, needed)
	}
	ports := map[string]int32{}
	for _, port := range c.Ports {
		ports[port.Name] = port.ContainerPort
	}
	if o.config.Data["BRIDLETIE_ADDR"] != ":8080" || ports["http"] != 8080 || o.config.Data["BRIDLETIE_METRICS_ADDR"] != ":9090" || ports["metrics"] != 9090 {
		t.Errorf("%s: ports %v, settings %v", where, ports, o.config.Data)
	}
	for path, probe := range map[string]*corev1.Probe{"/readyz": c.ReadinessProbe, "/livez": c.LivenessProbe} {
		if probe == nil || probe.HTTPGet == nil || probe.HTTPGet.Path != path || probe.HTTPGet.Port.String() != "http" {
			t.Errorf("%s: probe of %s: %+v", where, path, probe)
		}
	}
	if c.StartupProbe == nil || len(p.TopologySpreadConstraints) < 2 {
		t.Errorf("%s: no startup probe, or pods are not spread", where)
	}
}

// setting is a time among the settings; they are those of the program, which a
// test of the service holds against deploy.
func setting(t *testing.T, o *objects, name string) time.Duration {
	t.Helper()
	d, err := time.ParseDuration(o.config.Data[name])
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return d
}

// memory is bounded, and the garbage collector knows by what.
func memory(t *testing.T, where string, c corev1.Container, limit string) {
	t.Helper()
	request, most := c.Resources.Requests, c.Resources.Limits
	if request.Memory().Cmp(*most.Memory()) != 0 || most.Memory().IsZero() || request.Cpu().IsZero() {
		t.Errorf("%s: requests %v, limits %v", where, request, most)
	}
	soft, err := resource.ParseQuantity(strings.TrimSuffix(limit, "B"))
	if err != nil {
		t.Fatal(err)
	}
	if share := soft.AsApproximateFloat64() / most.Memory().AsApproximateFloat64(); share < 0.8 || share > 0.95 {
		t.Errorf("%s: GOMEMLIMIT is %.2f of the memory limit, want about 0.9", where, share)
	}
}

func scaled(t *testing.T, where string, o *objects, replicas int32) {
	t.Helper()
	h := o.hpa.Spec
	if h.ScaleTargetRef.Kind != "Deployment" || h.ScaleTargetRef.Name != o.deployment.Name || h.MinReplicas == nil || *h.MinReplicas != replicas || h.MaxReplicas <= replicas || len(h.Metrics) == 0 {
		t.Errorf("%s: scaling %+v", where, h)
	}
	if o.deployment.Spec.Replicas != nil {
		t.Errorf("%s: the deployment fights the autoscaler over the number of replicas", where)
	}
	if b := h.Behavior; b == nil || b.ScaleDown == nil || b.ScaleDown.StabilizationWindowSeconds == nil || *b.ScaleDown.StabilizationWindowSeconds < 300 {
		t.Errorf("%s: scales down at once", where)
	}
	if least := o.pdb.Spec.MinAvailable; least == nil || least.IntValue() < 1 || least.IntValue() >= int(replicas) {
		t.Errorf("%s: a budget of %v with %d replicas", where, least, replicas)
	}
}

// closed is a network that lets in the proxy and Prometheus, and nothing out.
func closed(t *testing.T, where string, o *objects) {
	t.Helper()
	n := o.network.Spec
	if len(n.PolicyTypes) != 2 || len(n.Egress) != 0 || len(n.Ingress) != 2 {
		t.Errorf("%s: network %+v", where, n)
	}
	for _, in := range n.Ingress {
		if len(in.From) == 0 || len(in.Ports) != 1 {
			t.Errorf("%s: anybody may come in: %+v", where, in)
		}
	}
	if len(o.service.Spec.Ports) != 1 || o.service.Spec.Ports[0].TargetPort.String() != "http" {
		t.Errorf("%s: the service shows %+v", where, o.service.Spec.Ports)
	}
}

// Each pod has its own share, and all shares are worked on.
func TestShardsJob(t *testing.T) {
	o := built(t, "shards")
	j := o.job.Spec
	restricted(t, "shards", j.Template.Spec)
	c := j.Template.Spec.Containers[0]
	memory(t, "shards", c, c.Env[0].Value)
	if j.CompletionMode == nil || *j.CompletionMode != batchv1.IndexedCompletion || j.Completions == nil || *j.Completions != 4 ||
		j.BackoffLimitPerIndex == nil || j.ActiveDeadlineSeconds == nil || j.Template.Spec.RestartPolicy != corev1.RestartPolicyNever {
		t.Errorf("%+v", j)
	}
	if args := strings.Join(c.Args, " "); args != "run --batch=/work/in.ndjson --shard=env/4 --out=/work/answers-{shard}.ndjson" {
		t.Errorf("arguments %q do not share the lines among 4", args)
	}
}
