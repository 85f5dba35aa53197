import { type SiteModel, tankGasConstant } from "./site-model";

/** The tank node: a gas-law tank beside some stiff pipe. Numbers for the inner loop. */
export type TankNode = {
  readonly volume: number;
  readonly constant: number; // K, J
  readonly stiffness: number; // m3/Pa, all that is soft beside the gas
  readonly atmosphere: number;
  readonly heatTime: number;
};

/** @param extra compliance joined to the node, m3/Pa (the manifold while the pump rests) */
export const tankNode = (site: SiteModel, extra = 0): TankNode => ({
  volume: site.tank.volume,
  constant: tankGasConstant(site),
  stiffness: site.tank.stiffness + extra,
  atmosphere: site.atmosphere,
  heatTime: site.tank.heatTime,
});

/**
 * Gauge pressure when the node holds `stored` m3 (0 at 0 gauge with the tank empty): stored = S p + max(0, Vt - K h / (p + air)).
 * Below the point where the gas fills the whole tank only the stiff pipe is left, and pressure falls away.
 * @param heat gas temperature over its temperature at rest
 */
export function nodePressure(node: TankNode, stored: number, heat: number): number {
  const constant = node.constant * heat;
  const emptiesAt = constant / node.volume - node.atmosphere;
  if (stored <= node.stiffness * emptiesAt) return stored / node.stiffness;
  const gas = node.volume - stored - node.stiffness * node.atmosphere;
  return (2 * constant) / (gas + Math.sqrt(gas * gas + 4 * node.stiffness * constant)) - node.atmosphere;
}

/** What the node holds at a gauge pressure, m3: the inverse of `nodePressure`. */
export const nodeStored = (node: TankNode, pressure: number, heat: number): number =>
  node.stiffness * pressure + Math.max(0, node.volume - (node.constant * heat) / (pressure + node.atmosphere));

/** Softness at a gauge pressure, m3/Pa. */
export function nodeCompliance(node: TankNode, pressure: number, heat: number): number {
  const absolute = pressure + node.atmosphere;
  const constant = node.constant * heat;
  return absolute * node.volume > constant ? node.stiffness + constant / (absolute * absolute) : node.stiffness;
}

const AIR = 0.4; // gamma - 1 of air

/**
 * Gas temperature ratio after the node went from one amount to another in a time: warmed by squeezing, drawn back by the wall.
 * First order in the change of volume, so for steps that change the gas by a few percent at most.
 */
export function nodeHeat(node: TankNode, heat: number, pressure: number, added: number, elapsed: number): number {
  const gas = Math.min(node.volume, (node.constant * heat) / (pressure + node.atmosphere));
  const squeezed = gas < node.volume || added > 0 ? heat * (1 + (AIR * added) / gas) : heat;
  return 1 + (squeezed - 1) * Math.exp(-elapsed / node.heatTime);
}
