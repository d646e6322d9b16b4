//! `open`: the pages, served on this machine; with `--lan` to a phone at the vehicle too.

use crate::args::Open;
use crate::drawer::{Drawer, Place};
use crate::show::complain;
use crate::{Ended, files};
use page::Pairing;
use std::net::{IpAddr, SocketAddr, UdpSocket};

/// Runs it until it is interrupted.
pub fn run(a: &Open) -> Ended {
    // A plan with errors opens too: the page shows them, and follows the file as it is mended.
    let place = match a.path.is_dir() {
        true => Place::Folder(a.path.clone()),
        false if files::read(&a.path).is_err() => return Ended::Unread,
        false => Place::Plan(a.path.clone()),
    };
    let pairing = match a.lan.then(|| Pairing::new(told)).transpose() {
        Ok(pairing) => pairing,
        Err(e) => {
            complain(&e, "leave --lan out to be served on this machine alone");
            return Ended::Unread;
        }
    };
    let drawer = Drawer::new(place, a.stock.clone());
    match page::serve(a.port, drawer, pairing, |address| ready(address, a.lan)) {
        Ok(()) => Ended::Well,
        Err(e) => {
            complain(
                &format!("port {} can't be had: {e}", a.port),
                "say another with --port, or 0 for any that is free",
            );
            Ended::Unread
        }
    }
}

fn told(code: &str) {
    anstream::println!("Code for a phone or another browser: {code}");
}

fn ready(address: SocketAddr, lan: bool) {
    let port = address.port();
    anstream::println!("The page is at http://127.0.0.1:{port}/ (stop with Ctrl-C)");
    if lan {
        match own_address() {
            Some(own) => {
                anstream::println!("From a phone on the same network: http://{own}:{port}/")
            }
            None => anstream::println!(
                "From a phone: http://, this machine's number on the network, :{port}/"
            ),
        }
        anstream::println!(
            "What goes between the two is not encrypted: use it on a network that you trust."
        );
    }
}

/// This machine's number on its network. Nothing is sent: the machine is only asked from where it would send.
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind(("0.0.0.0", 0)).ok()?;
    // An address for examples, RFC 5737.
    socket.connect(("192.0.2.1", 9)).ok()?;
    Some(socket.local_addr().ok()?.ip())
}
