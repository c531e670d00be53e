package clearance
import ("testing";"os";"fmt";"time";"boxwalk/model/job";"boxwalk/model")
func TestTry(t *testing.T){
 p:="../testdata/jobs/quarry-lane/job.yaml"; b,_:=os.ReadFile(p)
 j,_,pr:=job.Decode[job.Job](p,b,job.PeekSystem(b)); if j==nil {t.Fatal(pr.Error())}
 p="../testdata/gear/roof-halves-24.yaml"; b,_=os.ReadFile(p)
 g,_,pr:=job.Decode[job.Gear](p,b,job.PeekSystem(b)); if g==nil {t.Fatal(pr.Error())}
 t0:=time.Now()
 s,tr:=model.Build(j,g); if tr!=nil {t.Fatal(tr)}
 fmt.Println("build",time.Since(t0), len(s.Bays), s.Reported())
 t0=time.Now()
 r:=Check(s,Options{})
 fmt.Println("check",time.Since(t0), len(r.Checks), r.Verdict)
 for _,c:=range r.Governing() { v:="-"; if c.Value!=nil {v=fmt.Sprintf("%.5f..%.5f",c.Value.Lower,c.Value.Upper)}; fmt.Println(c.ID,c.Subject,c.Verdict,v,c.Text) }
 n:=0
 for _,c:=range r.Checks { if c.Verdict!=Pass && n<40 {n++; fmt.Println("  ",c.ID,c.Subject,c.Verdict,c.Value,*c.Limit,c.Allowance,c.Text)} }
}
