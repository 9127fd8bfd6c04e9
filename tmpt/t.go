package tmpt
import ("os";"strconv";"time";"fmt";"syscall")
var t0,_=strconv.ParseInt(os.Getenv("EV_T0"),10,64)
func init(){Mark("init")}
func Mark(s string){ if t0==0{return}; var r syscall.Rusage; syscall.Getrusage(0,&r); fmt.Fprintf(os.Stderr,"  [%6.1f ms wall, %6.1f cpu] %s\n",float64(time.Now().UnixNano()-t0)/1e6, float64(r.Utime.Nano()+r.Stime.Nano())/1e6, s)}
