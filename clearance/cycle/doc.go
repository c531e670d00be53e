// Package cycle plans the pours of a job hour by hour: which carrier is raised, closed,
// poured, freed and rolled when, with so many gangs in a working calendar; who waits for
// what; and what would shorten it. Numbers, no limit, no prose.
//
// Times are hours since midnight of the day of the start.
package cycle
