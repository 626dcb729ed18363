package plan

// Salted is the job with another seed for its search: the same for the same
// salt, and the seed that every caller has for 0.
func Salted(job Job, salt uint64) Job {
	job.Salt = salt
	return job
}
