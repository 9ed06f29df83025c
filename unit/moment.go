package unit

import (
	"fmt"
	"time"
)

// Moment is a minute on the shop's own clock, counted from midnight of
// 1 January 1970 there. It knows no time zone: eight o'clock is when the shop
// opens, summer and winter. The zero value means "no moment".
type Moment int64

const momentForm = "2006-01-02T15:04"

// At returns the moment of a clock time on a day.
func (d Date) At(hour, minute int) Moment {
	return Moment(int64(d)*1440 + int64(hour*60+minute))
}

// MomentOf returns t's clock reading, in t's own place.
func MomentOf(t time.Time) Moment { return DateOf(t).At(t.Hour(), t.Minute()) }

// Date returns the moment's day.
func (m Moment) Date() Date {
	if m < 0 {
		return Date((int64(m) - 1439) / 1440)
	}
	return Date(m / 1440)
}

// Minutes returns the minutes since midnight.
func (m Moment) Minutes() int { return int(int64(m) - int64(m.Date())*1440) }

// Clock writes "08:10".
func (m Moment) Clock() string { return fmt.Sprintf("%02d:%02d", m.Minutes()/60, m.Minutes()%60) }

// String writes "2026-10-06T08:10", or nothing for no moment.
func (m Moment) String() string {
	if m == 0 {
		return ""
	}
	return time.Unix(int64(m)*60, 0).UTC().Format(momentForm)
}

// ParseMoment reads what String writes.
func ParseMoment(text string) (Moment, error) {
	if text == "" {
		return 0, nil
	}
	t, err := time.Parse(momentForm, text)
	if err != nil {
		return 0, fmt.Errorf("%q is not a time like 2026-10-06T08:10", text)
	}
	return MomentOf(t), nil
}

// MarshalText writes the moment as String does.
func (m Moment) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (m *Moment) UnmarshalText(text []byte) error {
	parsed, err := ParseMoment(string(text))
	if err == nil {
		*m = parsed
	}
	return err
}
