@echo off
rem Opens plans with this Eavelight when they are double-clicked, for you alone; forget.cmd undoes it. Run it again when you
rem have moved the folder. The name is put in late, with !, so that a folder called A & B does no harm.
set "EXE=%~dp0eavelight.exe"
setlocal EnableDelayedExpansion
set "KEY=HKCU\Software\Classes"
reg add "%KEY%\.eavelight" /ve /d "Eavelight.Plan" /f || goto failed
reg add "%KEY%\.eavelight" /v "Content Type" /d "application/x-eavelight-plan" /f || goto failed
reg add "%KEY%\.eavelight\OpenWithProgids" /v "Eavelight.Plan" /d "" /f || goto failed
reg add "%KEY%\Eavelight.Plan" /ve /d "Eavelight plan" /f || goto failed
reg add "%KEY%\Eavelight.Plan\DefaultIcon" /ve /d "\"!EXE!\",0" /f || goto failed
reg add "%KEY%\Eavelight.Plan\shell\open\command" /ve /d "\"!EXE!\" \"%%1\"" /f || goto failed
echo Plans now open with "!EXE!".
pause
exit /b 0
:failed
echo Windows did not take it; the line above says why.
pause
exit /b 1
