package deviation
import ("testing";"fmt";"math";"strings";"lubberline.example/angle")
func tab(by string, amp float64, step int) *Table {
  var b strings.Builder
  b.WriteString(by+",deviation\n")
  for h:=0;h<360;h+=step { fmt.Fprintf(&b,"%03d,%.3f\n",h,amp*math.Sin(float64(h)*math.Pi/180)) }
  t,err:=ReadTable(strings.NewReader(b.String())); if err!=nil {panic(err)}
  return t
}
func TestTry(t *testing.T){
 for _,by:=range []string{"compass","magnetic"}{ for _,amp:=range []float64{5,40,70} { for _,sm:=range []bool{false,true}{
  tb:=tab(by,amp,15); if sm {tb=tb.Smooth()}
  worst:=angle.Angle(0); amb:=0
  for h:=0;h<3600;h++{
    m:=angle.MagneticFrom(angle.Angle(h)*angle.Degree/10+12345)
    d,err:=tb.OnMagnetic(m); if err!=nil { amb++; if amb==1 {fmt.Println(err)}; continue}
    c:=d.Compass(m); d2,err:=tb.OnCompass(c); if err!=nil {continue}
    worst=max(worst,(d.Angle()-d2.Angle()).Abs())
  }
  fmt.Println(by,amp,sm,"worst",int64(worst),"amb",amb,"mid",tb.at(22*angle.Degree), 5*math.Sin(22*math.Pi/180))
 }}}
 for _,x:=range []string{"compass,deviation\n000,2E\n010,91E\n","compass,deviation\n000,2E\n000,3E\n","compass,deviation\n000,2E\n","deviation\n2E\n","compass,deviation\n000,2Q\n","compass,deviation\n400,2E\n","[{\"compass\":\"000\",\n\"deviation\":\"x\"}]","","compass,deviation,foo\n1,2,3","[1]","[{\"compass\":1,\"deviation\":2},]"}{
  _,err:=ReadTable(strings.NewReader(x)); fmt.Println(err)}
}
func BenchmarkC(b *testing.B){ t:=tab("compass",5,15); b.ReportAllocs(); i:=0; for b.Loop(){ i++; t.OnCompass(angle.CompassFrom(angle.Angle(i%360)*angle.Degree)) } }
func BenchmarkM(b *testing.B){ t:=tab("compass",5,15); b.ReportAllocs(); i:=0; for b.Loop(){ i++; t.OnMagnetic(angle.MagneticFrom(angle.Angle(i%360)*angle.Degree)) } }
func BenchmarkMS(b *testing.B){ t:=tab("compass",5,15).Smooth(); b.ReportAllocs(); i:=0; for b.Loop(){ i++; t.OnMagnetic(angle.MagneticFrom(angle.Angle(i%360)*angle.Degree)) } }
