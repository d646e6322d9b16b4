//! trial
use job::{Job, Source};
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let text = std::fs::read_to_string(&path).unwrap();
    let t = std::time::Instant::now();
    let job = Job::read(Source { name: path, text }, vec![]);
    for e in job.errors() { println!("{:?}", e); }
    let Some(a) = job.answers() else { return };
    eprintln!("{:?}", t.elapsed());
    let l = job.loom().unwrap();
    for f in &a.findings { println!("{} {} {:?}\n   {}\n   {}", f.weight, f.id, f.names(), f.says, f.mend); }
    for w in &a.wires { println!("{} {} {:.2} A {:.0}/{:.0} °C {:.3} V by {}  smaller breaks {:?}", l.wire(w.wire).name, job.stock().conductors[w.conductor].id, w.amps, w.celsius, w.limit_celsius, w.drop_v, w.governed_by, w.smaller.as_ref().map(|s| s.1.iter().map(|v| v.rule).collect::<Vec<_>>())); }
    for f in &a.fuses { println!("{} {} {} A {:.2} A of {:.2}\n {}", l.part(f.part).name, job.stock().fuses[f.kind].name, f.rating_a, f.amps, f.bears_a, f.why.join("\n ")); }
    for f in &a.loads { println!("{} {:.2} V {:.2} A {:.2}% of {}%", l.part(f.part).name, f.volts, f.amps, f.drop_percent, f.limit_percent); }
    for f in &a.parts { println!("{} {} {:.2} of {:.2}\n {}", l.part(f.part).name, f.class, f.amps, f.bears_a, f.why.join("\n ")); }
}
