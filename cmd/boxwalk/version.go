package main

import "runtime/debug"

// release is the version that results are signed with.
const release = "0.1.0"

// version is the release, with the revision it was built from where the build
// knows it. It depends on the program only, so one program gives the same
// bytes wherever it runs.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return release
	}
	return release + revision(info.Settings)
}

// revision is "+" and the first letters of the revision, and a mark when the
// sources were not exactly that revision.
func revision(settings []debug.BuildSetting) string {
	set := map[string]string{}
	for _, s := range settings {
		set[s.Key] = s.Value
	}
	rev := set["vcs.revision"]
	if len(rev) < 12 {
		return ""
	}
	if set["vcs.modified"] != "false" {
		return "+" + rev[:12] + ".modified"
	}
	return "+" + rev[:12]
}
