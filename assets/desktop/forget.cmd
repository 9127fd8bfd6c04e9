@echo off
rem Undoes associate.cmd. Your plans and settings stay.
reg delete "HKCU\Software\Classes\.eavelight" /f
reg delete "HKCU\Software\Classes\Eavelight.Plan" /f
pause
