/**
 * What a wall is taken to be where its folder does not say: thick, of brick in lime mortar, with both faces open to the air. Our
 * convention. How long a trial has to wait is computed from the stated thickness and density only as far as they are no larger than
 * these, so that leaving a statement out never shortens the wait.
 */
export const assumedWall = { thickness_mm: 600, density_kg_m3: 1700, faces: 2 } as const;

/**
 * Coefficients of moisture transfer between a wet face and the air, kg/(m² s Pa): usual values of hygrothermal
 * calculations, 25e-9 indoors and 75e-9 outdoors in the wind (from memory).
 */
export const moistureTransfer_kg_m2_s_pa = { indoors: 25e-9, outdoors: 75e-9 } as const;

/**
 * What one wet face could give off at most, in mm a day, where nothing of the air was recorded: the upper end of what is
 * told of walls (0.1 to 1.5 mm a day and face; from memory, weak).
 */
export const mostEvaporationUnrecorded_mm_d = 1.5;

/**
 * What sunshine adds for a wall outdoors, mm a day, both faces together: 100 W/m² absorbed, mean of day and night, over the latent heat of
 * 2.47 MJ/kg (computed; the 100 W/m² are our convention, a high value).
 */
export const evaporationInSun_mm_d = 3.5;

/** Vapour pressure difference, Pa, that the wait is computed with where no larger one is on record: winter air indoors (our convention). */
export const winterPressure_pa = 100;

/**
 * How many times as long a wall needs as it would at its first-stage rate from first to last: over the whole fall it gives off on average about
 * a quarter of that rate (our convention).
 *
 * In the first stage the surface stays wet and the air sets the rate. Then the surface dries, the water has to come through a dry
 * layer, and the rate falls: by Fick’s law through a receding front it is D c / L, so that time grows with the square of the depth.
 * A layer of only 50 mm of brick (resistance to vapour 10 times that of air) already has some 60 times the resistance of the air film: pure
 * diffusion from a receding front takes far longer than four times, and four is a lenient factor.
 */
export const fallingStageFactor = 4;
