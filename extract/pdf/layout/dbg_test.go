package layout
import ("testing";"os";"context";"fmt";"probity/extract/pdf/engine";"probity/extract/pdf/glyph")
func TestDbg(t *testing.T){
 e,_:=engine.Start(engine.Options{})
 data,_:=os.ReadFile(os.Getenv("DBG"))
 var pages []*glyph.Page
 e.Read(context.Background(),data,engine.Limits{},func(p *glyph.Page){pages=append(pages,p)})
 for _,p:=range pages { r:=newRules(p); for _,b:=range r.across{fmt.Printf("H %.1f %.1f-%.1f\n",b.Y0,b.X0,b.X1)}; for _,b:=range r.down{fmt.Printf("V %.1f %.1f-%.1f\n",b.X0,b.Y0,b.Y1)}
 s:=&Sheet{Page:p,words:Words(p),rules:r}; rows:=rowsOf(s.words)
 for _,g:=range strongGutters(s){fmt.Printf("G %.1f-%.1f rows %d-%d l%d r%d\n",g.x0,g.x1,g.start,g.end,g.left,g.right)}
 _ = rows
 }
 sheets:=make([]*Sheet,len(pages))
 for i,p:=range pages { sheets[i]=&Sheet{Page:p,words:Words(p),rules:newRules(p),body:9} }
 findTables(sheets)
 for _,s:=range sheets { for _,r:=range rowsOf(s.words) { fmt.Printf("%.1f:",r[0].Base); for _,w:=range r { if w.table!=nil||w.Gap>7 { fmt.Printf(" [%.1f-%.1f %v %.8s]",w.X0,w.X1,w.table!=nil,w.Text()) } }; fmt.Println() }
 }
}
