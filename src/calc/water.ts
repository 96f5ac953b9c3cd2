/** Properties of pool water. Fresh water is meant; pool chemicals change these by less than a per cent. */
import { GRAVITY } from './units.ts';

/**
 * Density of water, kg/m³, at atmospheric pressure.
 * Range: 0 to 100 °C (pools: 0 to 45 °C).
 * Source: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97.
 * Example: 20 °C → 998.2.
 */
export function waterDensityKgPerM3(waterC: number): number {
  const numerator =
    999.83952 +
    waterC *
      (16.945176 +
        waterC *
          (-7.9870401e-3 + waterC * (-46.170461e-6 + waterC * (105.56302e-9 - 280.54253e-12 * waterC))));
  return numerator / (1 + 16.87985e-3 * waterC);
}

/** Weight of a cubic metre of water, N/m³, at the given temperature: turns a head in metres into pascal. */
export function waterWeightNPerM3(waterC: number): number {
  return waterDensityKgPerM3(waterC) * GRAVITY;
}

const CRITICAL_K = 647.096;
const CRITICAL_PA = 22.064e6;

/**
 * Vapour pressure of water, Pa: below it water boils.
 * ln(p/pc) = (Tc/T)(a1 τ + a2 τ^1.5 + a3 τ^3 + a4 τ^3.5 + a5 τ^4 + a6 τ^7.5), τ = 1 − T/Tc.
 * Range: 0.01 to 370 °C (pools: 0 to 45 °C).
 * Source: W. Wagner and A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783 (the IAPWS saturation equation).
 * Example: 20 °C → 2339.
 */
export function vapourPressurePa(waterC: number): number {
  const kelvin = waterC + 273.15;
  const tau = 1 - kelvin / CRITICAL_K;
  const root = Math.sqrt(tau);
  const tau3 = tau * tau * tau;
  const sum =
    tau * (-7.85951783 + 1.84408259 * root) +
    tau3 * (-11.7866497 + 22.6807411 * root - 15.9618719 * tau) +
    1.80122502 * tau3 * tau3 * tau * root;
  return CRITICAL_PA * Math.exp((CRITICAL_K / kelvin) * sum);
}

/**
 * Dynamic viscosity of water, Pa·s: μ = 2.414e-5 · 10^(247.8/(T − 140)), T in kelvin.
 * Range: 0 to 100 °C, within about 2.5 %.
 * Source: the Vogel form as given in engineering handbooks (from memory).
 * Example: 20 °C → 1.002e-3.
 */
export function waterViscosityPaS(waterC: number): number {
  return 2.414e-5 * Math.pow(10, 247.8 / (waterC + 133.15));
}
