package variation
import ("testing";"fmt";"time";"lubberline.example/angle")
func TestTry(t *testing.T){
 for _,x:=range []string{"4°15′W 2009 (8′E)","VAR 14°45'W (1985) ANNUAL INCREASE 8'","Magnetic Variation 8°40′E (1979) increasing about 2′ annually","Variation 9° West in 1914. Increasing 6′ per year","3°50′W 2014 (no annual change)","Mag Var 8 deg 40 min E (1979) increasing about 2 min annually","4 deg 15 min W 2009 (8 min E)","17°15'W 1972","4°15′W 2009 (8′)","4°15′W 2009 (8E)","4°15′W (8′E)","4°15′ 2009 (8′E)","4°15′W 2009 decreasing 8′W annually","4°61′W 2009 (8′E)","2¾°W 2020 (nil)","0°00′W 2009 increasing 8′","4.3°W 2010 (0.1°E)","VAR 3°W 2005 ANNUAL DECREASE 8.5'","4°15′W 2009 (8′E) foo","4°15′W 2009 2010 (8′E)","", "W4°15' 2009 (8'E)","4°15′W 2009 (0′E)","4°15'W 2009 (8'E per year)","4°15′W 2009 (1°05′E)", "4°15′W 2009 annual change 8′ W", "4 15 W 2009 (8' E)"}{
  r,err:=ParseLegend(x); fmt.Printf("%q => %v | %v | %v\n",x,r.Legend(),r.LegendInWords(),err)}
 r:=MustParseLegend("4°15′W 2009 (8′E)")
 for _,y:=range []int{2015,2025,2041,2050,1990}{ p,err:=r.InYear(y); fmt.Print(p.Working(),p.Variation.Uncertainty(),p.Warnings(Limits{}),err,"\n")}
 p,_:=r.On(time.Date(2026,7,2,12,0,0,0,time.UTC)); fmt.Print(p.Working())
 c,err:=NewChart("the invented chart",ChartRose{"A",angle.MustParsePosition("47N 19W"),r},ChartRose{"B",angle.MustParsePosition("47N 18W"),MustParseLegend("3°W 2009 (8′E)")},ChartRose{"C",angle.MustParsePosition("48N 18W"),MustParseLegend("3°W 2009 (8′E)")})
 fmt.Println(err)
 e,err:=c.ExplainVariation(angle.MustParsePosition("47°10'N 18°30'W"),time.Date(2026,7,2,12,0,0,0,time.UTC)); fmt.Print(e.Working,e.Warnings,err,"\n")
 c.Method=Blended
 e,err=c.ExplainVariation(angle.MustParsePosition("47°10'N 18°30'W"),time.Date(2026,7,2,12,0,0,0,time.UTC)); fmt.Print(e.Working,e.Warnings,err,"\n")
 e,err=c.ExplainVariation(angle.MustParsePosition("45°10'N 18°30'W"),time.Date(2026,7,2,12,0,0,0,time.UTC)); fmt.Print(e.Working,e.Warnings,err,"\n")
}
