/** Properties of dry air that natural convection needs, at one temperature and pressure. */
export interface Air {
  readonly conductivity_W_per_mK: number;
  readonly kinematicViscosity_m2_per_s: number;
  readonly dynamicViscosity_Pas: number;
  readonly diffusivity_m2_per_s: number;
  readonly density_kg_per_m3: number;
  readonly heatCapacity_J_per_kgK: number;
  readonly prandtl: number;
  /** `1/T` of an ideal gas. */
  readonly expansion_per_K: number;
}

/** Standard atmosphere at sea level. Handbook tables of air are commonly printed for 100 kPa. */
export const standardPressure_Pa = 101_325;
export const gravity_m_per_s2 = 9.806_65;
/** Stefan-Boltzmann constant, CODATA 2018. */
export const stefanBoltzmann_W_per_m2K4 = 5.670_374e-8;

const gasConstant_J_per_kgK = 287.05;
const heatCapacity_J_per_kgK = 1006;

/**
 * Dry air by Sutherland's law: `mu = 1.458e-6*T^1.5/(T + 110.4)`,
 * `k = 2.64638e-3*T^1.5/(T + 245.4*10^(-12/T))`, `rho = p/(287.05*T)`, cp 1006 J/(kg K).
 *
 * @param temperature_K film temperature, 200 to 1000 K; the constant heat capacity is 2 % low at 500 K, 12 % at 1000 K
 * @param pressure_Pa 50 000 to 110 000 Pa
 * @throws RangeError outside those ranges
 *
 * Source: U.S. Standard Atmosphere 1976, constants of viscosity and conductivity (from memory).
 * Check: `heat-air-*` against a handbook table at 300 K, 100 kPa.
 */
export function airAt(temperature_K: number, pressure_Pa: number = standardPressure_Pa): Air {
  if (!(temperature_K >= 200 && temperature_K <= 1000)) throw new RangeError(`air at ${temperature_K} K`);
  if (!(pressure_Pa >= 50_000 && pressure_Pa <= 110_000)) throw new RangeError(`air at ${pressure_Pa} Pa`);
  const power = temperature_K ** 1.5;
  const dynamicViscosity_Pas = (1.458e-6 * power) / (temperature_K + 110.4);
  const conductivity_W_per_mK = (2.646_38e-3 * power) / (temperature_K + 245.4 * 10 ** (-12 / temperature_K));
  const density_kg_per_m3 = pressure_Pa / (gasConstant_J_per_kgK * temperature_K);
  const kinematicViscosity_m2_per_s = dynamicViscosity_Pas / density_kg_per_m3;
  const diffusivity_m2_per_s = conductivity_W_per_mK / (density_kg_per_m3 * heatCapacity_J_per_kgK);
  return {
    conductivity_W_per_mK,
    kinematicViscosity_m2_per_s,
    dynamicViscosity_Pas,
    diffusivity_m2_per_s,
    density_kg_per_m3,
    heatCapacity_J_per_kgK,
    prandtl: kinematicViscosity_m2_per_s / diffusivity_m2_per_s,
    expansion_per_K: 1 / temperature_K,
  };
}

/**
 * Rayleigh number `g*beta*dT*L^3/(nu*alpha)` of a length and a temperature difference at one film temperature.
 *
 * @param input length_m > 0, difference_K any sign (its size counts), air at the film temperature
 * Source: definition; F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 9 (from memory).
 * Check: `heat-incropera-screen-ra`.
 */
export function rayleigh(input: {
  readonly length_m: number;
  readonly difference_K: number;
  readonly air: Pick<Air, 'expansion_per_K' | 'kinematicViscosity_m2_per_s' | 'diffusivity_m2_per_s'>;
}): number {
  const { air } = input;
  const drive = gravity_m_per_s2 * air.expansion_per_K * Math.abs(input.difference_K) * input.length_m ** 3;
  return drive / (air.kinematicViscosity_m2_per_s * air.diffusivity_m2_per_s);
}
