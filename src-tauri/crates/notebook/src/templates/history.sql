SELECT
    kind,
    language,
    version,
    template.name,
    source,
    person.name AS author,
    saved_at,
    version IS (
        SELECT choice.version FROM template_choice AS choice
        WHERE choice.kind = template.kind AND choice.language = template.language
        ORDER BY choice.sequence DESC LIMIT 1
    ) AS in_force
FROM template
JOIN person ON person.id = template.author
WHERE kind = ?1 AND language = ?2
ORDER BY version DESC;
