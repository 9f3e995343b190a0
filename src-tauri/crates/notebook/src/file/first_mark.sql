SELECT mark FROM person WHERE id = 1;
