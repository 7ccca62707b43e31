use super::Program;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use tempfile::TempDir;

/// Looks on at the calls that the running program makes to the kernel, or makes some of them fail.
pub struct Strace {
    child: Child,
    out: PathBuf,
    _folder: TempDir,
}

/// One call to the kernel. Its lines in the recording tell the order: `began` before it was made, `ended` after.
#[derive(Debug)]
pub struct Call {
    pub thread: u32,
    pub name: String,
    pub fd: i64,
    /// What the descriptor stands for, or the first path named.
    pub path: String,
    /// The bytes that were written.
    pub data: Vec<u8>,
    /// The whole numbers after those.
    pub numbers: Vec<i64>,
    pub result: i64,
    pub began: usize,
    pub ended: usize,
}

/// Every call by which a file's content, length or name changes, and those that send answers.
pub const WRITES: &str = "trace=write,pwrite64,writev,pwritev,sendto,sendmsg,lseek,ftruncate,fdatasync,fsync,\
    openat,rename,unlink";

impl Strace {
    /// From now on, with the options `asked`.
    pub fn attach(program: &Program, asked: &[&str]) -> Self {
        let folder = TempDir::new().unwrap();
        let out = folder.path().join("calls");
        let pid = program.child.as_ref().unwrap().id().to_string();
        let mut strace = Command::new("strace");
        strace.args(["-f", "-y", "-xx", "-p", &pid, "-o", out.to_str().unwrap()]).args(asked);
        let mut child = strace.stderr(Stdio::piped()).spawn().expect("the tests need strace");
        let mut said = BufReader::new(child.stderr.take().unwrap()).lines().map_while(Result::ok);
        let attached = said.find(|line| line.contains("attached") || line.contains("rror"));
        assert!(attached.as_ref().is_some_and(|line| line.contains("attached")), "{attached:?}");
        std::thread::spawn(move || said.for_each(drop));
        Self { child, out, _folder: folder }
    }

    /// The calls until now, and no more.
    pub fn detach(mut self) -> Vec<Call> {
        let pid = self.child.id().to_string();
        assert!(Command::new("kill").args(["-INT", &pid]).status().unwrap().success());
        self.child.wait().unwrap();
        calls(&std::fs::read_to_string(&self.out).unwrap())
    }
}

impl Drop for Strace {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Program {
    /// Starts it under strace with these options, which see the files of the database alone; what it said where it ended
    /// by itself.
    pub async fn tried(&mut self, options: &[&str], file: &str) -> Result<(), String> {
        let own = self.command();
        let mut strace = Command::new("strace");
        let calls = self.folder.path().join("calls");
        strace.args(["-D", "-f", "-qq", "-o", calls.to_str().unwrap()]).args(options);
        for end in ["", "-wal", "-shm"] {
            strace.args(["-P", &format!("{file}{end}")]);
        }
        strace.arg(own.get_program()).args(own.get_args());
        strace.args(["--listen", &format!("127.0.0.1:{}", self.port)]);
        let said = std::fs::File::create(self.folder.path().join("said")).unwrap();
        let child = strace.stdout(Stdio::null()).stderr(said).spawn().unwrap();
        self.child = Some(child);
        for _ in 0..600 {
            if std::net::TcpStream::connect(("127.0.0.1", self.port)).is_ok() {
                return Ok(());
            }
            if self.child.as_mut().is_some_and(|child| child.try_wait().unwrap().is_some()) {
                self.child = None;
                return Err(std::fs::read_to_string(self.folder.path().join("said")).unwrap());
            }
            tokio::time::sleep(std::time::Duration::from_millis(50)).await;
        }
        panic!("the program neither serves nor ends");
    }

    /// How many calls failed at that start because they were made to.
    pub fn injected(&self) -> usize {
        let calls = std::fs::read_to_string(self.folder.path().join("calls")).unwrap();
        calls.lines().filter(|line| line.contains("(INJECTED)")).count()
    }
}

/// Reads a recording made with `-f -y -xx`: one line for each call, or two where another thread's came between.
pub fn calls(text: &str) -> Vec<Call> {
    let mut open: Vec<(u32, usize, String)> = Vec::new();
    let mut all = Vec::new();
    for (at, line) in text.lines().enumerate() {
        let Some((thread, rest)) = line.split_once(' ') else { continue };
        let (Ok(thread), rest) = (thread.parse::<u32>(), rest.trim_start()) else { continue };
        if let Some(begun) = rest.strip_suffix("<unfinished ...>") {
            open.push((thread, at, begun.to_owned()));
        } else if rest.starts_with("<...") {
            let Some(place) = open.iter().position(|(of, ..)| *of == thread) else { continue };
            let (_, began, begun) = open.remove(place);
            let end = rest.split_once("resumed>").map_or("", |(_, end)| end);
            all.extend(call(thread, &format!("{begun}{end}"), began, at));
        } else {
            all.extend(call(thread, rest, at, at));
        }
    }
    all
}

fn call(thread: u32, line: &str, began: usize, ended: usize) -> Option<Call> {
    let (name, rest) = line.split_once('(')?;
    let (args, result) = rest.rsplit_once(") = ").or_else(|| {
        // aligned with spaces
        rest.rsplit_once(" = ").map(|(args, result)| (args.trim_end().trim_end_matches(')'), result))
    })?;
    let result = result.split(|c: char| c != '-' && !c.is_ascii_digit()).next()?.parse().ok()?;
    let (fd, path, after) = match args.split_once('<') {
        Some((fd, rest)) if fd.bytes().all(|b| b.is_ascii_digit()) => {
            let (path, after) = rest.split_once('>')?;
            (fd.parse().ok()?, plain(path), after)
        }
        _ => (-1, args.split('"').nth(1).map(plain).unwrap_or_default(), args),
    };
    let data = after.split('"').skip(1).step_by(2).flat_map(bytes).collect();
    let last = after.rsplit('"').next().unwrap_or_default();
    let numbers = last.split(',').filter_map(|word| word.trim().parse().ok()).collect();
    Some(Call { thread, name: name.to_owned(), fd, path, data, numbers, result, began, ended })
}

fn plain(text: &str) -> String {
    if text.contains("\\x") { String::from_utf8_lossy(&bytes(text)).into_owned() } else { text.to_owned() }
}

fn bytes(text: &str) -> Vec<u8> {
    text.split("\\x").skip(1).filter_map(|hex| u8::from_str_radix(hex.get(..2)?, 16).ok()).collect()
}

#[test]
fn a_recording_is_read() {
    let text = r#"7 pwrite64(4<\x2f\x61>, "\x00\x41", 2, 4096) = 2
8 fdatasync(4<\x2f\x61> <unfinished ...>
7 write(9<socket:[5]>, "\x48\x54", 2)  = 2
8 <... fdatasync resumed>)            = 0
7 openat(AT_FDCWD, "\x2f\x62", O_RDWR|O_CREAT, 0644) = 12<\x2f\x62>
7 pwrite64(4<\x2f\x61>, "\x00", 1, 9) = -1 ENOSPC (No space left on device) (INJECTED)"#;
    let all = calls(text);
    let first = &all[0];
    assert_eq!(
        (first.path.as_str(), &first.data[..], &first.numbers[..]),
        ("/a", &[0, 0x41][..], &[2, 4096][..])
    );
    assert_eq!((all[1].data.as_slice(), all[1].path.as_str(), all[1].result), (&b"HT"[..], "socket:[5]", 2));
    assert_eq!((all[2].name.as_str(), all[2].began, all[2].ended, all[2].result), ("fdatasync", 1, 3, 0));
    assert_eq!((all[3].path.as_str(), all[3].result), ("/b", 12));
    assert_eq!(all[4].result, -1);
}
