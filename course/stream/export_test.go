package stream

import "lubberline.example/course/sailing"

// What tests check and no caller needs.

// Track is the rhumb line from the beginning to the end, over the ground.
func (c Crossing) Track() sailing.Run { return c.run }

// Drift is the sum of the drifts of all streams.
func (c Crossing) Drift() sailing.Run { return c.drift }

// Ground is the course and speed made good in the hour.
func (h CrossingHour) Ground() Motion { return h.ground }
