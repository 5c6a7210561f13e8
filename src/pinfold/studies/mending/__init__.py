"""What would mend what fails: changes of the plan found by trying them."""
