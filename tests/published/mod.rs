//! Outside checks by source: one file for each table or group of tables. The tables lie in
//! `reference/` as they were handed over, and the checks read them from there. The two lists of
//! cases are run whole: [`ledger`] holds that every case is either run or listed with its reason.

mod bench;
mod case;
mod later;
mod ledger;
mod reference;
mod tolerance;

mod adiabatic;
mod air;
mod alternator;
mod ambient;
mod ampacity;
mod battery;
mod bundle;
mod cold;
mod colour;
mod cutting;
mod discharge;
mod drop;
mod duty;
mod field;
mod fly_back;
mod free_air;
mod fuse_gate;
mod fuse_load;
mod fuse_table;
mod fuse_wire;
mod geometry;
mod heat_case;
mod inrush;
mod kirchhoff;
mod lamp;
mod load;
mod lot;
mod milp;
mod motor;
mod ngspice;
mod ngspice_heat;
mod ngspice_networks;
mod packing;
mod pull;
mod radial;
mod relay;
mod resistance;
mod rested;
mod sneak;
mod supply;
mod supply_class;
mod switch;
mod terminal;
mod torque;
mod trade;
