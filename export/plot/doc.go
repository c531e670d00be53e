// Package plot lays diagrams out for a report: curves over a way or a height, and bars
// over time. It knows no paper and no writer: what it gives is lines, areas, rings and
// letters, in points, y down.
package plot
