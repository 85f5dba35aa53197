/** Standard acceleration of gravity, m/s2, exact. NIST SP 811, App. B.8. */
export const STANDARD_GRAVITY = 9.80665;
