import { metre } from "../../shared/units/quantity";
import { inertance } from "../hydraulics/inertance";
import { aimedPressure, type SiteModel } from "./site-model";
import { nodeCompliance, nodeHeat, nodePressure, nodeStored, type TankNode, tankNode } from "./tank";

/** The water side in numbers for the inner loop. */
export type Plant = {
  readonly node: TankNode;
  /** Tank and manifold as one, for the pump at rest. */
  readonly restNode: TankNode;
  readonly manifoldCompliance: number;
  readonly inertance: number; // Pa s2/m3
  readonly resistance: number; // Pa per (m3/s)^2
  readonly shutoff: number;
  readonly steepness: number;
  readonly suction: number;
  readonly leak: number; // m3/s per root Pa
  readonly backLeak: number; // m3/s per root Pa
  readonly drawAtTank: boolean;
};

/** Mutable: one object for the whole run, so that the loop makes no garbage. */
export type PlantState = {
  speed: number;
  manifold: number;
  pipeFlow: number;
  stored: number; // in the tank node, m3
  tank: number;
  heat: number;
  pumpFlow: number;
  draw: number;
  leak: number;
  back: number;
};

/** What a step is to be. One object for the whole run: numbers handed over one by one would each be put in a box, thousands a second. */
export type StepOrder = {
  /** m3/s at the reference pressure. */
  flow: number;
  exponent: number;
  /** Pa. */
  reference: number;
  /** Speed share squared times the pump's state of prime, 0 to 1. */
  drive: number;
  /** s. */
  dt: number;
};

const SHORTEST_PIPE = 0.1; // m; an inertance of 0 has no equation of motion
const DIES_AWAY = 20e3; // Pa; below this a prescribed draw cannot be had and falls to 0

export function makePlant(site: SiteModel): Plant {
  const aimed = aimedPressure(site);
  return {
    node: tankNode(site),
    restNode: tankNode(site, site.manifoldCompliance),
    manifoldCompliance: site.manifoldCompliance,
    inertance: inertance(metre(Math.max(SHORTEST_PIPE, site.pipe.length)), metre(site.pipe.bore)),
    resistance: site.pipe.resistance,
    shutoff: site.pump.shutoff * site.pump.health,
    steepness: site.pump.steepness,
    suction: site.suctionPressure,
    leak: site.systemLeak / Math.sqrt(aimed),
    backLeak: site.backLeak / Math.sqrt(Math.max(1, aimed - site.suctionPressure)),
    drawAtTank: site.drawAt === "tank",
  };
}

export function startState(plant: Plant, pressure: number): PlantState {
  const stored = nodeStored(plant.node, pressure, 1);
  return { speed: 0, manifold: pressure, pipeFlow: 0, stored, tank: pressure, heat: 1, pumpFlow: 0, draw: 0, leak: 0, back: 0 };
}

/** Flow drawn at a pressure: as the root of pressure, or as told until the pressure is nearly gone. */
export function drawnFlow(flow: number, exponent: number, reference: number, pressure: number): number {
  if (flow === 0 || pressure <= 0) return 0;
  return exponent === 0 ? flow * Math.min(1, pressure / DIES_AWAY) : flow * Math.sqrt(pressure / reference);
}

const rootFlow = (coefficient: number, pressure: number) => (coefficient > 0 && pressure > 0 ? coefficient * Math.sqrt(pressure) : 0);

/**
 * One step. The pipe's flow and the tank are taken at mid step (second order, keeps the energy of the slow swing), the small
 * manifold and the pump's curve at the end of the step (cannot ring), solved together in closed form: one quadratic for the pump's
 * flow, whose negative root is the shut check valve. Where the tank is so stiff that mid step would ring, it too goes to the end.
 * Volume is kept exactly: pressures follow from what is stored.
 */
export function stepPlant(plant: Plant, state: PlantState, order: StepOrder): void {
  const { node, manifoldCompliance, inertance: mass } = plant;
  const { flow, exponent, reference, drive, dt } = order;
  const compliance = nodeCompliance(node, state.tank, state.heat);
  const stiff = (dt * dt) / (mass * compliance);
  const theta = stiff > 0.3 ? 1 : 0.5;
  state.leak = rootFlow(plant.leak, state.tank);
  state.draw = drawnFlow(flow, exponent, reference, plant.drawAtTank ? state.tank : state.manifold);
  const fromTank = state.leak + (plant.drawAtTank ? state.draw : 0);
  // Pipe: flow at the end of the step as a + b * manifold pressure.
  const push = dt / mass;
  const weight = 1 / (1 + push * plant.resistance * Math.abs(state.pipeFlow) + theta * theta * stiff);
  const a = weight * (state.pipeFlow - push * (state.tank + ((theta * dt) / compliance) * ((1 - theta) * state.pipeFlow - fromTank)));
  const b = weight * push;
  // Manifold: what leaves it beside the pipe as out + slope * (pressure - now).
  const back = state.pumpFlow > 0 ? 0 : rootFlow(plant.backLeak, state.manifold - plant.suction);
  const here = plant.drawAtTank ? 0 : state.draw;
  const slope = 0.5 * ((back > 0 ? back / (state.manifold - plant.suction) : 0) + (here > 0 && exponent > 0 ? here / state.manifold : 0));
  const e = dt / manifoldCompliance;
  const share = 1 / (1 + e * (theta * b + slope));
  const alpha = share * (state.manifold - e * (theta * a + (1 - theta) * state.pipeFlow + back + here - slope * state.manifold));
  const beta = share * e;
  const head = drive * plant.shutoff + plant.suction - alpha;
  const pump = head > 0 ? (2 * head) / (beta + Math.sqrt(beta * beta + 4 * plant.steepness * head)) : 0;
  const manifold = alpha + beta * pump;
  const extra = slope * (manifold - state.manifold);
  const total = back + here;
  state.back = total > 0 ? back + (extra * back) / total : 0;
  if (here > 0) state.draw = here + (extra * here) / total;
  const pipe = a + b * manifold;
  const into = theta * pipe + (1 - theta) * state.pipeFlow;
  const added = (into - fromTank) * dt;
  if (node.heatTime > 0) state.heat = nodeHeat(node, state.heat, state.tank, added, dt);
  state.stored += added;
  state.tank = nodePressure(node, state.stored, state.heat);
  state.manifold = manifold;
  state.pipeFlow = pipe;
  state.pumpFlow = pump;
}

/**
 * The same with the pump at rest and the pipe still: tank and manifold are one vessel that only loses water, so a step may be long.
 * Draw and leaks are taken at the pressure of mid step. Returns the pressure at its end without going there (`commitRest` does).
 */
export function restPressure(
  plant: Plant,
  state: PlantState,
  flow: number,
  exponent: number,
  reference: number,
  dt: number,
  rest: RestStep,
): number {
  const compliance = nodeCompliance(plant.restNode, state.tank, state.heat);
  const outflow = (p: number) =>
    drawnFlow(flow, exponent, reference, p) + rootFlow(plant.leak, p) + rootFlow(plant.backLeak, p - plant.suction);
  const middle = state.tank - (outflow(state.tank) * dt) / (2 * compliance);
  rest.draw = drawnFlow(flow, exponent, reference, middle);
  rest.leak = rootFlow(plant.leak, middle);
  rest.back = rootFlow(plant.backLeak, middle - plant.suction);
  const lost = (rest.draw + rest.leak + rest.back) * dt;
  const stored = state.stored + plant.manifoldCompliance * state.manifold;
  rest.heat = plant.node.heatTime > 0 ? nodeHeat(plant.node, state.heat, state.tank, -lost, dt) : 1;
  rest.pressure = nodePressure(plant.restNode, stored - lost, rest.heat);
  rest.stored = stored - lost - plant.manifoldCompliance * rest.pressure;
  return rest.pressure;
}

export type RestStep = { pressure: number; stored: number; heat: number; draw: number; leak: number; back: number };

export function commitRest(state: PlantState, rest: RestStep): void {
  state.stored = rest.stored;
  state.tank = rest.pressure;
  state.manifold = rest.pressure;
  state.heat = rest.heat;
  state.draw = rest.draw;
  state.leak = rest.leak;
  state.back = rest.back;
  state.pipeFlow = 0;
  state.pumpFlow = 0;
}
