//! File identity: the full path of a file and the hash of what it held when it was last read or written here.
//!
//! A base name identifies nothing, and neither does a time stamp: a file is unchanged when its bytes are.

use std::ffi::OsString;
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest, Sha256};

/// SHA-256 (FIPS 180-4) of a file's bytes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct ContentHash([u8; 32]);

impl ContentHash {
    /// The hash of these bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// 64 hexadecimal digits.
    #[must_use]
    pub fn hex(&self) -> String {
        self.0.iter().fold(String::new(), |hex, byte| hex + &format!("{byte:02x}"))
    }

    /// The hash whose bytes are these.
    pub(super) fn from_digest(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    fn from_hex(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        let mut hash = [0; 32];
        if digits.len() != 2 * hash.len() {
            return None;
        }
        for (byte, pair) in hash.iter_mut().zip(digits.chunks(2)) {
            *byte = std::str::from_utf8(pair).ok().and_then(|pair| u8::from_str_radix(pair, 16).ok())?;
        }
        Some(Self(hash))
    }
}

impl fmt::Debug for ContentHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.hex())
    }
}

impl Serialize for ContentHash {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.hex())
    }
}

impl<'de> Deserialize<'de> for ContentHash {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::from_hex(&text).ok_or_else(|| serde::de::Error::custom("64 hexadecimal digits are expected"))
    }
}

/// A file as it was last read or written here.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FileIdentity {
    /// Full path, as the user named it: a link stays a link.
    #[serde(serialize_with = "write_path", deserialize_with = "read_path")]
    pub path: PathBuf,
    /// What it held.
    pub hash: ContentHash,
}

impl FileIdentity {
    /// The file at `path`, which holds these bytes.
    #[must_use]
    pub fn of(path: &Path, bytes: &[u8]) -> Self {
        Self { path: full_path(path), hash: ContentHash::of(bytes) }
    }
}

/// The full path of a file, independent of the current folder. Links stay links, so that a file is saved through them.
#[must_use]
pub fn full_path(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}

/// Whether two paths lead to one file, through links or not. Neither has to exist.
#[must_use]
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    real_path(one) == real_path(other)
}

/// Where a path leads when links are followed: as far as it exists, and as it is written from there on.
pub(super) fn real_path(path: &Path) -> PathBuf {
    let path = full_path(path);
    if let Ok(real) = fs::canonicalize(&path) {
        return real;
    }
    match (path.parent(), path.file_name()) {
        (Some(folder), Some(name)) => real_path(folder).join(name),
        _ => path,
    }
}

// A path need not be text: it is kept as the system's own string, without loss.

fn write_path<S: Serializer>(path: &Path, serializer: S) -> Result<S::Ok, S::Error> {
    path.as_os_str().serialize(serializer)
}

fn read_path<'de, D: Deserializer<'de>>(deserializer: D) -> Result<PathBuf, D::Error> {
    OsString::deserialize(deserializer).map(PathBuf::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4's first example (NIST, "SHA256", one block): "abc".
    #[test]
    fn the_hash_is_sha_256() {
        let hash = ContentHash::of(b"abc");
        assert_eq!(hash.hex(), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(ContentHash::from_hex(&hash.hex()), Some(hash));
        assert_eq!(ContentHash::from_hex("ba78"), None);
        assert_eq!(ContentHash::from_hex(&"é".repeat(32)), None);
    }

    #[cfg(unix)]
    #[test]
    fn an_identity_of_any_path_is_written_and_read_without_loss() {
        use std::os::unix::ffi::OsStringExt;
        let odd = PathBuf::from(OsString::from_vec(b"/tmp/\xff\n\".frame.ron".to_vec()));
        let identity = FileIdentity::of(&odd, b"x");
        let text = serde_json::to_string(&identity).unwrap();
        assert_eq!(serde_json::from_str::<FileIdentity>(&text).unwrap(), identity);
    }

    #[cfg(unix)]
    #[test]
    fn one_file_is_known_by_all_its_paths() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("a"), "x").unwrap();
        fs::write(at("b"), "x").unwrap();
        std::os::unix::fs::symlink(at("a"), at("link")).unwrap();
        assert!(is_same_file(&at("a"), &at("link")));
        assert!(is_same_file(&at("a"), &at("./a")));
        assert!(!is_same_file(&at("a"), &at("b")), "equal bytes, two files");
        assert!(is_same_file(&at("none/x"), &at("none/x")) && !is_same_file(&at("none"), &at("nothing")));
    }
}
