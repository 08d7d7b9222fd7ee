//! Places: of a frameset in a comparison, and of a size in a frameset. Each has a type of its own, so that neither is taken
//! for the other, nor for a count.

use std::ops::{Index, IndexMut};

use serde::{Deserialize, Serialize};

/// Place of a frame among the frames compared, from 0: the frame with the letter A is at 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct FrameIndex(pub usize);

/// Place of a size among a frameset's sizes, from 0, in the order of its file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct SizeIndex(pub usize);

/// What a list holds once for each frame compared, in their order.
pub trait OnePerFrame {}

/// What a list holds once for each size of a frameset, in their order.
pub trait OnePerSize {}

macro_rules! places {
    ($index:ident, $each:ident) => {
        impl $index {
            /// The first `count` places, in order.
            pub fn all(count: usize) -> impl DoubleEndedIterator<Item = Self> + ExactSizeIterator + Clone {
                (0..count).map(Self)
            }

            /// Items that stand in order, each with its place.
            pub fn numbered<T>(items: impl IntoIterator<Item = T>) -> impl Iterator<Item = (Self, T)> {
                items.into_iter().enumerate().map(|(place, item)| (Self(place), item))
            }

            /// The place before it; `None` before the first.
            #[must_use]
            pub const fn before(self) -> Option<Self> {
                match self.0 {
                    0 => None,
                    place => Some(Self(place - 1)),
                }
            }

            /// The place behind it.
            #[must_use]
            pub const fn after(self) -> Self {
                Self(self.0 + 1)
            }

            /// What a list has at this place; `None` beyond its end.
            #[must_use]
            pub fn of<T: $each>(self, list: &[T]) -> Option<&T> {
                list.get(self.0)
            }

            /// What a list has at this place, to be changed; `None` beyond its end.
            #[must_use]
            pub fn of_mut<T: $each>(self, list: &mut [T]) -> Option<&mut T> {
                list.get_mut(self.0)
            }
        }

        impl<T: $each> Index<$index> for [T] {
            type Output = T;

            fn index(&self, place: $index) -> &T {
                &self[place.0]
            }
        }

        impl<T: $each> IndexMut<$index> for [T] {
            fn index_mut(&mut self, place: $index) -> &mut T {
                &mut self[place.0]
            }
        }

        impl<T: $each> Index<$index> for Vec<T> {
            type Output = T;

            fn index(&self, place: $index) -> &T {
                &self[place.0]
            }
        }

        impl<T: $each> IndexMut<$index> for Vec<T> {
            fn index_mut(&mut self, place: $index) -> &mut T {
                &mut self[place.0]
            }
        }
    };
}

places!(FrameIndex, OnePerFrame);
places!(SizeIndex, OnePerSize);

#[cfg(test)]
mod tests {
    use super::*;

    impl OnePerFrame for &'static str {}

    #[test]
    fn a_place_finds_what_stands_there_and_nothing_beyond_the_ends() {
        let mut list = vec!["A", "B"];
        let (first, second) = (FrameIndex(0), FrameIndex(1));
        assert_eq!((list[first], second.of(&list), second.after().of(&list)), ("A", Some(&"B"), None));
        assert_eq!((first.before(), second.before()), (None, Some(first)));
        assert_eq!(FrameIndex::numbered(&list).collect::<Vec<_>>(), [(first, &"A"), (second, &"B")]);
        list[second] = "C";
        assert_eq!(first.of_mut(&mut list).map(|item| std::mem::replace(item, "D")), Some("A"));
        assert_eq!(list, ["D", "C"]);
    }

    #[test]
    fn a_place_is_written_as_its_number() {
        assert_eq!(ron::to_string(&FrameIndex(3)).unwrap(), "3");
        assert_eq!(ron::from_str::<SizeIndex>("2").unwrap(), SizeIndex(2));
    }
}
