//! What is printed, measured on the page and read back from its dots; and what is typed in from paper.

mod cards;
mod labels;
mod trays;
