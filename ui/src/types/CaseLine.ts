export type CaseLine = {
  id: string;
  name: string;
  hospital_number: string;
  birth_date: string;
  operation_date: string;
  side: string;
  procedure: string;
  state: "draft" | "signed";
  saved_at: string;
};
