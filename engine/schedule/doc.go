// Package schedule turns people, places, waits and calendars into dates, and ranges into odds.
package schedule
