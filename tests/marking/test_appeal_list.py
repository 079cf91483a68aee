"""Every case that an appeal was thought of for has its test: the list, and that each test on it is there."""

import test_appeal_cases
import test_appeal_changes
import test_appeal_neighbours
import test_appeal_windows
import test_deletion
import test_overrides

CASES = {
    "sabotage: lines in my name in a neighbour's file": "test_lines_in_my_name_in_a_neighbours_file",
    "wrong in the sitting, right at home": "test_right_at_home_does_not_mend_a_sitting",
    "right in the sitting, wrong or shown at home": (
        "test_wrong_at_home_and_a_solution_seen_touch_nothing_in_the_sitting"
    ),
    "backdated register": "test_a_backdated_register_supervises_nothing",
    "sitting entered, nobody sat": "test_a_sitting_of_a_room_in_which_nobody_answered",
    "declared before the sitting": "test_a_declaration_from_before_the_sitting",
    "declared, not signed": "test_a_declaration_recorded_as_not_signed",
    "signed, and then not": "test_a_declaration_found_unsigned_afterwards_counts_no_more",
    "not signed for the retake": "test_not_signed_for_a_retake_takes_nothing_from_the_sitting_before",
    "which declaration counts": "test_the_record_names_the_declaration_that_counts",
    "declared in a year to come": "test_a_declaration_of_a_day_to_come_in_an_older_register",
    "decided before it came": "test_an_appeal_is_decided_once_it_has_come",
    "an appeal about what was never answered": "test_an_appeal_about_what_was_never_answered",
    "sat one lesson of two": "test_a_sitting_about_one_lesson_of_two",
    "cut chain": "test_lines_cut_out_of_a_sitting",
    "cut off at the end": "test_lines_cut_off_the_end_show_by_the_noted_code_alone",
    "notebook alone, bad lines left out": "test_a_notebook_with_the_bad_lines_left_out",
    "clock set back": "test_a_clock_set_back_between_mistake_and_correction",
    "clock wrong by an hour, a day, ten years": "test_a_wrong_clock_waits_and_one_entry_confirms_the_room",
    "went on at home": "test_going_on_at_home_after_the_sitting",
    "went on at home at once": "test_going_on_at_home_within_the_length_of_the_sitting",
    "a second laptop at home": "test_a_second_laptop_at_home_is_not_the_room",
    "shared laptop": "test_a_shared_laptop_counts_once_a_person_has_decided",
    "whose hand-in": "test_where_name_and_folder_disagree_the_hand_in_is_held_and_one_entry_assigns_it",
    "a copy is assigned to whoever handed it in": "test_assigning_a_copy_takes_nothing_from_whose_it_is",
    "assigned, and not held": "test_an_entry_for_a_hand_in_that_is_not_held_changes_nothing_and_is_told",
    "assigned, and two are held": "test_one_entry_that_reaches_two_held_hand_ins_is_told",
    "sent twice": "test_handed_in_twice_by_the_same_learner_counts_once",
    "marked again": "test_marked_again_it_is_the_same",
    "marked again under other rules": "test_marked_again_under_other_rules",
    "override": "test_an_override_is_of_practice_or_of_the_sitting_it_names",
    "override and back": "test_an_override_and_back_is_as_computed",
    "override of a sitting and back": "test_an_override_of_a_sitting_is_taken_back_with_its_word",
    "withdrawn question": "test_a_question_of_a_sitting_is_withdrawn",
    "withdrawn question that was right": "test_who_had_the_withdrawn_question_right_keeps_it",
    "late practice": "test_late_practice_is_flagged_and_counts",
    "a sitting after the due date": "test_a_sitting_after_the_due_date_is_not_late",
    "extra time": "test_extra_time_is_a_window_of_ones_own",
    "another day": "test_another_day_is_a_window_of_ones_own",
    "extra time without lessons": "test_extra_time_is_about_the_lessons_of_the_room",
    "a window of other lessons": "test_each_window_holds_in_its_own_lessons",
    "sat in the window of other lessons alone": "test_who_sat_in_a_window_of_other_lessons_sat_about_those",
    "went on in the window of another lesson": "test_a_lesson_does_not_run_on_in_the_window_of_another",
    "two sittings about different lessons": "test_two_sittings_about_different_lessons_both_count",
    "another day by an adjustment": "test_an_adjustment_moves_the_time_to_another_day",
    "an adjustment of no sitting": "test_an_adjustment_of_a_sitting_that_is_not_there_moves_nothing",
    "retake": "test_which_of_two_sittings_counts_is_what_the_class_said",
    "a retake whose time waits": "test_a_retake_whose_time_waits_pushes_nothing_aside",
    "a first sitting whose time waits": "test_a_sitting_whose_time_waits_uses_up_no_retake",
    "a retake too many": "test_a_retake_more_than_the_class_allows",
    "a sitting that showed scores": "test_a_sitting_that_showed_scores",
    "change of class": "test_who_changed_class_keeps_the_history",
    "copied from a neighbour who handed nothing in": "test_from_one_who_handed_nothing_in",
    "copied from a neighbour whose hand-in is held": "test_from_one_whose_hand_in_is_held",
    "copied from one who is on no roster": "test_from_one_who_is_on_no_roster",
    "copied from one who was deleted": "test_the_copy_stays_flagged_without_the_name",
    "copied in a sitting": "test_in_a_sitting",
    "honest": "test_right_answers_of_a_sitting_are_complete",
}


def test_every_case_of_the_list_has_its_test() -> None:
    """No case is listed whose test was renamed or left out."""
    modules = (
        test_appeal_cases,
        test_appeal_changes,
        test_appeal_neighbours,
        test_appeal_windows,
        test_deletion,
        test_overrides,
    )
    there = {name for module in modules for name in vars(module) if name.startswith("test_")}

    assert set() == set(CASES.values()) - there
