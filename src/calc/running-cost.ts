/** What running a pump costs. */

/** Energy, Wh, of a power in W kept up for some hours. Values from 0. */
export function energyWh(powerW: number, hours: number): number {
  return powerW * hours;
}

/** Cost of an energy in Wh at a price for a kWh, in the currency of the price. */
export function runningCost(wattHours: number, pricePerKWh: number): number {
  return (wattHours / 1000) * pricePerKWh;
}
