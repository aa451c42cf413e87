// Package calc works things out for people before and after a case, and says
// what it assumes. It proposes no dose, no diagnosis and no treatment, and is
// no substitute for local policy.
//
// # Air clearance
//
// The time until a share of the particles in a room's air is gone:
//
//	minutes = −ln(1 − share) ÷ air changes per hour × 60
//
// as in the Guidelines for Environmental Infection Control in Health-Care
// Facilities (CDC, 2003), Appendix B, Table B.1. The formula assumes that the
// air mixes perfectly, that the ventilation works as stated, and that nothing
// adds particles: it begins again at every aerosol event. Real rooms mix worse
// and clear more slowly; the published table adds no margin, and neither does
// this package.
//
// Air changes are whole thousandths per hour, shares are whole ten-thousandths.
// A room whose air changes are not known has no estimate, and that is an error
// rather than a number.
package calc
