package check

import (
	"boxwalk/model/job"
)

// coefficients is a source with whose the numbers are that it works with: keys of
// the job file, each the job's own where the file states it.
func coefficients(source string, j *job.Job, keys ...string) string {
	for _, key := range keys {
		source += "; " + whose(j, key)
	}
	return source
}

// whose a key's number is.
func whose(j *job.Job, key string) string {
	for _, c := range job.Numbers(j) {
		if c.Key != key || c.Value != c.Standard {
			continue
		}
		if j.States(key) {
			return key + ": " + job.EqualToDefault
		}
		return key + ", default: " + c.Source
	}
	return key + ": the job"
}
