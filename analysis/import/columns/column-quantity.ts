import type { ChannelQuantity, ChannelRole } from "../../../shared/record/channel-role";
import { findUnit, type Unit } from "../../../shared/units/unit-table";

/** A pressure in metres or feet is a head of water. */
export function asHead(role: ChannelRole, unit: Unit | null): Unit | null {
  if (role !== "pressure" || unit?.quantity !== "length") return unit;
  return findUnit(`${unit.symbol}H2O`) ?? unit;
}

/** What a unit of measure makes of a column; a pressure that nothing marks is gauge. */
export const quantityOf = (unit: Unit | null): ChannelQuantity =>
  unit === null ? "none" : unit.quantity === "pressure" ? "gaugePressure" : unit.quantity;
